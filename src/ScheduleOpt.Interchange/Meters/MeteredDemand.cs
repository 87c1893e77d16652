using NodaTime;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Meters;

/// <summary>Average power of the house, interval by interval, as a file of meter readings has it: for an estimate of what a panel can carry.</summary>
/// <param name="Interval">Length of an interval.</param>
/// <param name="AverageKw">Average power in order; none where the file has no reading. [kW]</param>
/// <param name="ShowsExport">Whether the file also holds energy given to the network, so that generation is behind the meter.</param>
/// <param name="Notes">What was taken to be so, and what else the reader must know.</param>
public sealed record MeteredDemand(Duration Interval, IReadOnlyList<double?> AverageKw, bool ShowsExport, IReadOnlyList<string> Notes)
{
    // A year of 5-minute averages.
    private const int MostValues = 366 * 288;

    /// <summary>Reads a file. Nothing is filled: what was not read may have been the peak.</summary>
    public static Reading<MeteredDemand> Read(string text, DateTimeZone zone)
    {
        var reading = MeterFile.Read(text, new MeterFileOptions { Zone = zone, Missing = MissingIntervals.Zero });
        if (!reading.IsRead)
        {
            return Reading<MeteredDemand>.Refused(reading.Faults);
        }

        var readings = reading.Value;
        if (readings.House is not { } house)
        {
            return Refused("Must hold what the house took from the network.", "");
        }

        if (house.Series.Count > MostValues)
        {
            return Refused($"Must hold at most {MostValues} intervals, a year of 5 minutes.", $"{house.Series.Count}");
        }

        if (house.Report.ReadingsSpread > 0)
        {
            return Refused("Readings longer than an interval were spread evenly, which hides a peak: give a file in which every reading has the same length.", $"{house.Report.ReadingsSpread} readings");
        }

        if (house.Report.Gaps.Sum(g => g.Intervals) < house.Report.MissingIntervals)
        {
            return Refused("Has too many gaps to say what the highest quarter hour was.", $"{house.Report.MissingIntervals} intervals");
        }

        var notes = readings.Guesses.Concat(readings.Warnings).ToList();
        if (house.Report.EstimatedShare > 0)
        {
            notes.Add(FormattableString.Invariant($"{house.Report.EstimatedShare:P1} of the readings are the utility's estimates: a peak may be missing."));
        }

        return new MeteredDemand(house.Series.Interval, Powers(house), readings.Export is not null, notes);
    }

    private static double?[] Powers(MeterChannel house)
    {
        var (series, hours) = (house.Series, house.Series.Interval.TotalHours);
        var powers = new double?[series.Count];
        for (var i = 0; i < powers.Length; i++)
        {
            powers[i] = series.MicroKilowattHours[i] / (double)MeteredSeries.UnitsPerKilowattHour / hours;
        }

        foreach (var gap in house.Report.Gaps)
        {
            var from = (int)((gap.Start - series.Start) / series.Interval);
            for (var i = Math.Max(0, from); i < Math.Min(powers.Length, from + gap.Intervals); i++)
            {
                powers[i] = null;
            }
        }

        return powers;
    }

    private static Reading<MeteredDemand> Refused(string rule, string value) => Reading<MeteredDemand>.Refused(new Fault("#", rule, value));
}
