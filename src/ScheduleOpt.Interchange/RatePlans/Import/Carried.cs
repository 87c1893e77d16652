namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>Whether a field is in the rate plan made from a record.</summary>
public enum Carried
{
    /// <summary>As it stands.</summary>
    Yes,

    /// <summary>With an assumption that someone should look at.</summary>
    WithAssumption,

    /// <summary>Not: bills leave it out.</summary>
    No,
}
