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
    private readonly GapRule gaps = new(options, notes);

    // Two readings may stand years apart, and a file may have many flows: what all of them become is limited, not each.
    private long intervalsLeft = MeterLimits.Readings;

    /// <summary>Makes the channels of one flow; none where there is a fault or nothing to make them of.</summary>
    /// <param name="flow">The readings and what is known of them.</param>
    public IReadOnlyList<MeterChannel> Channels(MeteredFlow flow)
    {
        var readings = flow.Readings.Span;
        var count = readings.Length;
        var unusable = flow.Unusable + UnusableReadings.Drop(flow, ref readings, notes);
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
            notes.Fault(flow.Pointer,
                $"From the first to the last reading there must be at most {MeterLimits.Readings} intervals, those of all flows together.",
                $"{flow.Name}: {gaps.Shown(readings[0].Start)} to {gaps.Shown(readings[^1].End)} in intervals of {grid.Length / 60} min");
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
        if (!gaps.Fill(flow, intervals, runs, missing, end - first))
        {
            return [];
        }

        report = report with
        {
            Gaps = [.. runs.Take(MeterLimits.Gaps).Select(r => GapRule.Gap(intervals, r))],
            MissingIntervals = missing,
            MissingShare = missing / (double)(end - first),
            MissingRule = missing == 0 ? "" : gaps.Sentence,
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

    private void Remark(MeteredFlow flow, Intervals intervals, MeterReport report, int first, int end)
    {
        if (report.ReadingsSpread > 0)
        {
            notes.Warn($"{flow.Name}: {report.ReadingsSpread} readings are longer than an interval of {intervals.SecondsPerInterval / 60} min or begin between two; their energy was spread evenly.");
        }

        if (report.MissingIntervals > 0)
        {
            notes.Warn(string.Create(CultureInfo.InvariantCulture,
                $"{flow.Name}: {report.MissingIntervals} intervals had no reading ({report.MissingShare:P1}): {report.MissingRule}."));
        }

        long largest = 0;
        for (var i = first; i < end; i++)
        {
            largest = Math.Max(largest, Math.Abs(intervals[i]));
        }

        if (largest > MeteredSeries.LargestKilowattHours * MeteredSeries.UnitsPerKilowattHour)
        {
            notes.Fault(flow.Pointer, $"The energy of an interval must be at most {MeteredSeries.LargestKilowattHours} kWh.",
                $"{largest / MeteredSeries.UnitsPerKilowattHour} kWh");
        }

        var kilowatts = largest / 1e6 * 3600 / intervals.SecondsPerInterval;
        if (kilowatts > UnlikelyKilowatts)
        {
            notes.Warn(string.Create(CultureInfo.InvariantCulture,
                $"{flow.Name}: an interval averages {kilowatts:0} kW, unlikely for a home; check the unit and the readings."));
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
}
