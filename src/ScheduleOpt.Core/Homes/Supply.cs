using ScheduleOpt.Core.Charging;

namespace ScheduleOpt.Core.Homes;

/// <summary>How power reaches the car: nominal voltage, phases, breaker and what the circuit may carry for hours.</summary>
public sealed record Supply
{
    /// <summary>The prudent limit of a domestic socket. [A] See <see cref="ContinuousRatingRule.DomesticSocket"/>.</summary>
    public const double DomesticSocketA = 10;

    /// <summary>Nominal voltage. [V] One phase: 120, 208, 230 or 240. Three phases: 400 (230 V to neutral).</summary>
    public required int VoltageV { get; init; }

    /// <summary>1 or 3.</summary>
    public int Phases { get; init; } = 1;

    /// <summary>Rating of the breaker of the circuit. [A] Above 0, documents 6 to 125.</summary>
    public required double BreakerA { get; init; }

    /// <summary>Receptacle or hardwired.</summary>
    public SupplyConnection Connection { get; init; } = SupplyConnection.Receptacle;

    /// <summary>The rule for the continuous rating.</summary>
    public ContinuousRatingRule Rule { get; init; } = ContinuousRatingRule.Unknown;

    /// <summary>The current the installer states for the dedicated circuit, or a lower limit of a domestic socket. [A]</summary>
    public double? StatedCurrentA { get; init; }

    /// <summary>The charging unit's own limit, or one the household sets. [A] None: no further limit.</summary>
    public double? UnitLimitA { get; init; }

    /// <summary>Current that other loads on the same circuit may take at the same time. [A] Default 0.</summary>
    public double OtherLoadA { get; init; }

    /// <summary>Whether the voltage and the number of phases occur together.</summary>
    public static bool IsKnown(int voltageV, int phases) => (voltageV, phases) is (120 or 208 or 230 or 240, 1) or (400, 3);

    /// <summary>The current the circuit may carry for hours. [A]</summary>
    /// <example>NEC, breaker of 40 A: 32 A.</example>
    public double ContinuousRatingA => Rule switch
    {
        ContinuousRatingRule.DedicatedCircuit => Math.Min(BreakerA, StatedCurrentA ?? (0.8 * BreakerA)),
        ContinuousRatingRule.DomesticSocket => Math.Min(BreakerA, Math.Min(DomesticSocketA, StatedCurrentA ?? DomesticSocketA)),
        _ => 0.8 * BreakerA,
    };

    /// <summary>The current at which this vehicle charges here; 0 where less than its minimum is left. [A, per phase]</summary>
    /// <remarks>
    /// I = min(continuous rating - other loads, unit limit, the on-board charger's limit at this voltage). Where the on-board charger
    /// binds, the current is what it draws and need not be whole.
    /// </remarks>
    public double ChargingCurrentA(Vehicle vehicle)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        var offered = Math.Min(ContinuousRatingA - OtherLoadA, UnitLimitA ?? double.PositiveInfinity);
        var drawn = Math.Min(offered, vehicle.OnBoardCharger.Kilowatts * 1000 / VoltsAcrossPhases);
        return drawn < vehicle.MinimumCurrentA ? 0 : drawn;
    }

    /// <summary>The power this vehicle draws from the wall when it charges here; 0 where it can't. [kW]</summary>
    /// <remarks>P = V * I / 1000 on one phase; 3 * 230 V * I / 1000 on three phases of 400 V. Power factor 1.</remarks>
    public Power ChargingPower(Vehicle vehicle) => Power.FromKilowatts(VoltsAcrossPhases * ChargingCurrentA(vehicle) / 1000);

    /// <summary>Watts per ampere of each phase. [V]</summary>
    public double VoltsAcrossPhases => Phases == 3 ? 3 * 230 : VoltageV;
}
