namespace ScheduleOpt.Tariffs.Billing;

/// <summary>The series that a bill is made of, worked out once from what the meter recorded.</summary>
/// <param name="Import">Import that charges per kWh see.</param>
/// <param name="Metered">Import that demand and baselines see: netted interval by interval, but not by net metering.</param>
/// <param name="Export">Export that is paid for; none for no export.</param>
internal sealed record BilledUse(MeteredSeries Import, MeteredSeries Metered, MeteredSeries? Export);
