namespace ScheduleOpt.Core.Homes.Panels;

/// <summary>The charging unit as a load of the service.</summary>
public sealed record ChargingLoad
{
    /// <summary>The least that charging equipment counts in a service calculation. [kVA]</summary>
    /// <remarks>NFPA 70 (NEC) 2023, 220.57: 7,200 VA or the nameplate, whichever is larger.</remarks>
    public const double LeastKva = 7.2;

    /// <summary>What a continuous load counts beside metered demand.</summary>
    /// <remarks>NFPA 70 (NEC) 2023, 625.42 and 210.20(A), applied to the sum: the cautious reading, no source for the sum itself.</remarks>
    public const double ContinuousFactor = 1.25;

    /// <summary>Makes a load.</summary>
    /// <param name="nameplateA">Current of the unit; 6 to 80. [A]</param>
    /// <param name="voltageV">120, 208 or 240. [V]</param>
    /// <exception cref="ArgumentOutOfRangeException">A current outside 6 to 80 A or another voltage.</exception>
    public ChargingLoad(double nameplateA, int voltageV = 240)
    {
        if (nameplateA is not (>= 6 and <= 80))
        {
            throw new ArgumentOutOfRangeException(nameof(nameplateA), nameplateA, "A charging unit must draw 6 to 80 A.");
        }

        if (voltageV is not (120 or 208 or 240))
        {
            throw new ArgumentOutOfRangeException(nameof(voltageV), voltageV, "The voltage must be 120, 208 or 240 V.");
        }

        NameplateA = nameplateA;
        VoltageV = voltageV;
    }

    /// <summary>Current of the unit. [A]</summary>
    public double NameplateA { get; }

    /// <summary>Its voltage. [V]</summary>
    public int VoltageV { get; }

    /// <summary>Apparent power by the nameplate. [kVA]</summary>
    public double NameplateKva => NameplateA * VoltageV / 1000;

    /// <summary>What it counts in a service calculation. [kVA]</summary>
    /// <example>24 A at 240 V: 7.2 kVA; 48 A: 11.52 kVA.</example>
    public double ServiceKva => Math.Max(LeastKva, NameplateKva);
}
