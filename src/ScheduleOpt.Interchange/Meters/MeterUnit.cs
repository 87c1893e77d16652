namespace ScheduleOpt.Interchange.Meters;

/// <summary>Unit of the readings of a table.</summary>
public enum MeterUnit
{
    /// <summary>kWh of each interval.</summary>
    KilowattHours,

    /// <summary>Wh of each interval.</summary>
    WattHours,

    /// <summary>Mean power of each interval in kW: times its length.</summary>
    Kilowatts,

    /// <summary>Mean power of each interval in W: times its length.</summary>
    Watts,
}
