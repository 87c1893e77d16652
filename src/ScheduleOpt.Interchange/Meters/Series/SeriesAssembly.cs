using System.Globalization;
using NodaTime;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Meters.Series;

/// <summary>Makes channels of equal intervals out of readings.</summary>
/// <param name="options">What the client said.</param>
/// <param name="notes">Where faults and warnings go.</param>
internal sealed class SeriesAssembly(MeterFileOptions options, ReadingNotes notes)
{
    private const double UnlikelyKilowatts = 100;
    private const int MostNamedGaps = 100;

    // Two readings may stand years apart, and a file may have many flows: what all of them become is limited, not each.
    private long intervalsLeft = MeterLimits.Readings;

    /// <summary>Makes the channels of one flow; none where there is a fault or nothing to make them of.</summary>
    /// <param name="flow">The readings and what is known of them.</param>
    public IReadOnlyList<MeterChannel> Channels(MeteredFlow flow)
    {
        var readings = flow.Readings.Span;
        var count = readings.Length;
        var unusable = flow.Unusable + DropUnusable(flow, ref readings);
        if (readings.IsEmpty)
        {
            notes.Skip($"{flow.Name}: none of its {count} readings can be used.");
            return [];
        }

        var (kept, duplicates, overlaps) = ReadingOrder.Sort(readings);
        readings = readings[..kept];
        var grid = IntervalGrid.Of(readings);
        if (grid.Count > intervalsLeft)
        {
            notes.Fault(flow.Pointer, $"From the first to the last reading there must be at most {MeterLimits.Readings} intervals, those of all flows together.",
                $"{flow.Name}: {Shown(readings[0].Start)} to {Shown(readings[^1].End)} in intervals of {grid.Length / 60} min");
            return [];
        }

        intervalsLeft -= grid.Count;
        var intervals = new Intervals(grid);
        var qualities = new int[32];
        foreach (var reading in readings)
        {
            intervals.Take(reading);
            qualities[(int)reading.Quality]++;
        }

        var report = new MeterReport
        {
            Readings = kept,
            DuplicatesReplaced = duplicates,
            OverlapsDropped = overlaps,
            ReadingsSpread = intervals.Spread,
            ReadingsUnusable = unusable,
            EstimatedShare = qualities.Where((_, q) => ReadingQualities.IsEstimate((ReadingQuality)q)).Sum() / (double)kept,
            QualityShares = qualities.Select((n, q) => (Word: ReadingQualities.Word((ReadingQuality)q), n)).Where(q => q.n > 0)
                .ToDictionary(q => q.Word, q => q.n / (double)kept),
            StatedCost = flow.StatedCost,
        };
        return Finish(flow, intervals, report);
    }

    private List<MeterChannel> Finish(MeteredFlow flow, Intervals intervals, MeterReport report)
    {
        // Whole intervals from the first to the last that was read.
        int first = 0, end = intervals.Count;
        while (first < end && intervals.IsMissing(first))
        {
            first++;
        }

        while (end > first && intervals.IsMissing(end - 1))
        {
            end--;
        }

        if (first == end)
        {
            notes.Skip($"{flow.Name}: its readings do not fill a single interval of {intervals.SecondsPerInterval / 60} min.");
            return [];
        }

        var runs = GapFilling.Find(intervals, first, end);
        var missing = runs.Sum(r => r.Count);
        if (!Fill(flow, intervals, runs, missing, end - first))
        {
            return [];
        }

        report = report with
        {
            Gaps = [.. runs.Take(MeterLimits.Gaps).Select(r => Gap(intervals, r))],
            MissingIntervals = missing,
            MissingShare = missing / (double)(end - first),
            MissingRule = missing == 0 ? "" : Rule(),
            IsEnoughForAYear = (end - first - missing) * intervals.SecondsPerInterval >= 0.9 * 365 * 86_400,
        };
        var faults = notes.FaultCount;
        Remark(flow, intervals, report, first, end);
        if (notes.FaultCount > faults)
        {
            return [];
        }

        return flow.Direction is { } direction
            ? [Channel(flow, direction, intervals, first, end, report, sign: 1)]
            : [
                Channel(flow, FlowDirection.Delivered, intervals, first, end, report, sign: 1),
                Channel(flow, FlowDirection.Received, intervals, first, end, report, sign: -1),
            ];
    }

    private bool Fill(MeteredFlow flow, Intervals intervals, List<(int First, int Count)> runs, int missing, int all)
    {
        if (missing == 0)
        {
            return true;
        }

        if (options.Missing == MissingIntervals.Refuse)
        {
            const string Rule = "Intervals without a reading are refused unless a rule for filling them is chosen: zero, or the same hour of neighbouring weeks.";
            foreach (var gap in runs.Take(MostNamedGaps).Select(r => Gap(intervals, r)))
            {
                notes.Fault(flow.Pointer, Rule, $"{Shown(gap.Start)} to {Shown(gap.End)}: {gap.Intervals} missing");
            }

            if (runs.Count > MostNamedGaps)
            {
                notes.Fault(flow.Pointer, Rule, $"{runs.Count} gaps in all, {missing} intervals");
            }

            return false;
        }

        var values = Enumerable.Repeat(0L, missing).ToList();
        if (options.Missing == MissingIntervals.NeighbouringWeeks)
        {
            if (missing * 2 > all)
            {
                notes.Fault(flow.Pointer, "More than half of a series can't be filled from neighbouring weeks.", $"{flow.Name}: {missing} of {all} intervals are missing");
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

    private int DropUnusable(MeteredFlow flow, ref Span<RawReading> readings)
    {
        int kept = 0, negative = 0, longer = 0;
        for (var i = 0; i < readings.Length; i++)
        {
            var reading = readings[i];
            if (reading.Value < 0 && flow.Direction is not null)
            {
                negative++;
            }
            else if (reading.Duration > 86_400 + 3600)
            {
                longer++;
            }
            else if (reading.Duration > 0)
            {
                readings[kept++] = reading;
            }
        }

        if (negative > 0)
        {
            notes.Warn($"{flow.Name}: {negative} negative readings were left out and count as missing: a flow in one direction can't be negative. If it is a net flow, the file should say so.");
        }

        if (longer > 0)
        {
            notes.Warn($"{flow.Name}: {longer} readings of more than a day were left out: they do not say when energy was used.");
        }

        var dropped = readings.Length - kept;
        readings = readings[..kept];
        return dropped;
    }

    private void Remark(MeteredFlow flow, Intervals intervals, MeterReport report, int first, int end)
    {
        if (report.ReadingsSpread > 0)
        {
            notes.Warn($"{flow.Name}: {report.ReadingsSpread} readings are longer than an interval of {intervals.SecondsPerInterval / 60} min or begin between two; their energy was spread evenly.");
        }

        if (report.MissingIntervals > 0)
        {
            notes.Warn(string.Create(CultureInfo.InvariantCulture, $"{flow.Name}: {report.MissingIntervals} intervals had no reading ({report.MissingShare:P1}): {report.MissingRule}."));
        }

        long largest = 0;
        for (var i = first; i < end; i++)
        {
            largest = Math.Max(largest, Math.Abs(intervals[i]));
        }

        if (largest > MeteredSeries.LargestKilowattHours * MeteredSeries.UnitsPerKilowattHour)
        {
            notes.Fault(flow.Pointer, $"The energy of an interval must be at most {MeteredSeries.LargestKilowattHours} kWh.", $"{largest / MeteredSeries.UnitsPerKilowattHour} kWh");
        }

        var kilowatts = largest / 1e6 * 3600 / intervals.SecondsPerInterval;
        if (kilowatts > UnlikelyKilowatts)
        {
            notes.Warn(string.Create(CultureInfo.InvariantCulture, $"{flow.Name}: an interval averages {kilowatts:0} kW, unlikely for a home; check the unit and the readings."));
        }
    }

    private static MeterChannel Channel(MeteredFlow flow, FlowDirection direction, Intervals intervals, int first, int end, MeterReport report, int sign)
    {
        var kwh = new double[end - first];
        for (var i = 0; i < kwh.Length; i++)
        {
            kwh[i] = Math.Max(0, sign * intervals[first + i]) / (double)MeteredSeries.UnitsPerKilowattHour;
        }

        var name = flow.Direction is null ? $"{flow.Name} {(sign > 0 ? "delivered" : "received")}" : flow.Name;
        return new(
            name, direction, flow.IsVehicle,
            MeteredSeries.FromKilowattHours(Instant.FromUnixTimeSeconds(intervals.StartOf(first)), Duration.FromSeconds(intervals.SecondsPerInterval), kwh),
            report);
    }

    private string Rule() => options.Missing == MissingIntervals.Zero
        ? "filled with no use"
        : "filled with the mean of the same local time in the nearest weeks before and after";

    private static MeterGap Gap(Intervals intervals, (int First, int Count) run) => new(
        Instant.FromUnixTimeSeconds(intervals.StartOf(run.First)),
        Instant.FromUnixTimeSeconds(intervals.StartOf(run.First + run.Count)),
        run.Count);

    private string Shown(long second) => Shown(Instant.FromUnixTimeSeconds(second));

    private string Shown(Instant instant) => instant.InZone(options.Zone).ToString("uuuu-MM-dd'T'HH:mm:sso<g>", CultureInfo.InvariantCulture);
}
