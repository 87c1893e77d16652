using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Core.Charging;

/// <summary>The car, as far as charging it at home needs to know it.</summary>
public sealed record Vehicle
{
    /// <summary>Usable battery energy E at 20 degC. [kWh] Above 0, documents up to 300.</summary>
    public required Energy UsableEnergy { get; init; }

    /// <summary>The most that the on-board charger takes from the wall. [kW] Above 0, documents up to 50.</summary>
    public required Power OnBoardCharger { get; init; }

    /// <summary>What the car uses for driving, by temperature.</summary>
    public required Consumption Consumption { get; init; }

    /// <summary>The state of charge not exceeded on ordinary days. Default 0.80.</summary>
    public StateOfCharge OrdinaryLimit { get; init; } = StateOfCharge.FromFraction(0.80);

    /// <summary>The limit allowed when a longer trip needs it. Default 1.00; never below the ordinary limit.</summary>
    public StateOfCharge ExtendedLimit { get; init; } = StateOfCharge.FromFraction(1.00);

    /// <summary>The state of charge never planned below. Default 0.10; below the ordinary limit.</summary>
    public StateOfCharge Minimum { get; init; } = StateOfCharge.FromFraction(0.10);

    /// <summary>The least current at which the car charges. [A] Default 6: IEC 61851-1, the lowest current that can be offered.</summary>
    public double MinimumCurrentA { get; init; } = 6;

    /// <summary>The constants of the charging model.</summary>
    public ChargingConstants Constants { get; init; } = ChargingConstants.Default;
}
