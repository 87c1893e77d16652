using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace ScheduleOpt.Interchange.Meters;

/// <summary>What a series of readings rests on, for the reader of a report.</summary>
public static class MeterEvidence
{
    /// <summary>Period, interval and the shares that were missing or estimated, in a sentence without its full stop.</summary>
    /// <param name="channel">The metered flow.</param>
    /// <param name="zone">The household's zone.</param>
    public static string Of(MeterChannel channel, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(channel);
        ArgumentNullException.ThrowIfNull(zone);
        var (series, report) = (channel.Series, channel.Report);
        var last = series.Start + (series.Interval * series.Count) - Duration.FromSeconds(1);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"meter readings from {Day(series.Start, zone)} to {Day(last, zone)} in intervals of {series.Interval.TotalMinutes:0} min, ")
            + string.Create(CultureInfo.InvariantCulture, $"{100 * report.MissingShare:0.0} % missing and {100 * report.EstimatedShare:0.0} % of the others estimated by the utility");
    }

    private static string Day(Instant instant, DateTimeZone zone) => LocalDatePattern.Iso.Format(instant.InZone(zone).Date);
}
