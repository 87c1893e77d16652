using System.Globalization;
using NodaTime;

namespace ScheduleOpt.Interchange.Meters.Series;

/// <summary>What the client wants to become of missing intervals.</summary>
internal sealed class GapRule(MeterFileOptions options, ReadingNotes notes)
{
    private const int MostNamedGaps = 100;

    /// <summary>The rule as a sentence.</summary>
    public string Sentence => options.Missing == MissingIntervals.Zero
        ? "filled with no use"
        : "filled with the mean of the same local time in the nearest weeks before and after";

    /// <summary>A run of missing intervals as a gap.</summary>
    public static MeterGap Gap(Intervals intervals, (int First, int Count) run) => new(
        Instant.FromUnixTimeSeconds(intervals.StartOf(run.First)),
        Instant.FromUnixTimeSeconds(intervals.StartOf(run.First + run.Count)),
        run.Count);

    /// <summary>Fills the missing intervals; false, with faults, where that is refused.</summary>
    public bool Fill(MeteredFlow flow, Intervals intervals, List<(int First, int Count)> runs, int missing, int all)
    {
        if (missing == 0)
        {
            return true;
        }

        if (options.Missing == MissingIntervals.Refuse)
        {
            const string Refused = "Intervals without a reading are refused unless a rule for filling them is chosen: zero, or the same hour of neighbouring weeks.";
            foreach (var gap in runs.Take(MostNamedGaps).Select(r => Gap(intervals, r)))
            {
                notes.Fault(flow.Pointer, Refused, $"{Shown(gap.Start)} to {Shown(gap.End)}: {gap.Intervals} missing");
            }

            if (runs.Count > MostNamedGaps)
            {
                notes.Fault(flow.Pointer, Refused, $"{runs.Count} gaps in all, {missing} intervals");
            }

            return false;
        }

        var values = Enumerable.Repeat(0L, missing).ToList();
        if (options.Missing == MissingIntervals.NeighbouringWeeks)
        {
            if (missing * 2 > all)
            {
                notes.Fault(flow.Pointer, "More than half of a series can't be filled from neighbouring weeks.",
                    $"{flow.Name}: {missing} of {all} intervals are missing");
                return false;
            }

            if (GapFilling.Neighbours(intervals, runs, options.Zone, out var unfilled) is not { } found)
            {
                notes.Fault(flow.Pointer, "A missing interval has no reading at its hour in the four weeks before and after.",
                    $"{flow.Name}: {Shown(intervals.StartOf(unfilled))}");
                return false;
            }

            values = found;
        }

        var next = 0;
        foreach (var (first, count) in runs)
        {
            for (var i = first; i < first + count; i++)
            {
                intervals.Fill(i, values[next++]);
            }
        }

        return true;
    }

    /// <summary>A time as the household's clock shows it.</summary>
    public string Shown(long second) => Shown(Instant.FromUnixTimeSeconds(second));

    private string Shown(Instant instant) => instant.InZone(options.Zone).ToString("uuuu-MM-dd'T'HH:mm:sso<g>", CultureInfo.InvariantCulture);
}
