namespace ScheduleOpt.Scheduling;

/// <summary>How a stop counts at which charging is to be had on a share of days only.</summary>
public enum StopReading
{
    /// <summary>Tonight: only a stop that charges on every day counts, others are ignored.</summary>
    CertainOnly,

    /// <summary>A year: the stop's power is weighted by its share of days.</summary>
    WeightedByShare,
}
