namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>A block of readings that stand together in the list of all readings.</summary>
/// <param name="Links">Links of its entry.</param>
/// <param name="Pointer">Where it stands.</param>
/// <param name="Start">Its start; none where it does not say. [s since 1970]</param>
/// <param name="Duration">Its length; zero where it does not say. [s]</param>
/// <param name="First">Number of its first reading.</param>
/// <param name="Count">How many readings it has.</param>
/// <param name="Cost">Sum of the costs of its readings; none where none has one. [1e-5 of the currency]</param>
internal sealed record IntervalBlock(EspiLinks Links, string Pointer, long? Start, long Duration, int First, int Count, decimal? Cost);
