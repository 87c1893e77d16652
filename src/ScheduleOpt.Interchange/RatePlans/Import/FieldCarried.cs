namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>What became of one field of a record.</summary>
/// <param name="Field">Its name; in angle brackets what the database has no field for.</param>
/// <param name="How">Whether it is in the rate plan.</param>
/// <param name="Note">What was assumed, or why it is not; empty where it was simply carried.</param>
public sealed record FieldCarried(string Field, Carried How, string Note = "");
