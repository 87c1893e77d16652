namespace ScheduleOpt.Interchange.Meters;

/// <summary>Which way metered energy flows, seen from the utility.</summary>
public enum FlowDirection
{
    /// <summary>To the house: import.</summary>
    Delivered,

    /// <summary>From the house: export.</summary>
    Received,
}
