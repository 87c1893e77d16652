using NodaTime;
using ScheduleOpt.Interchange.Meters.Series;

namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>Reads Green Button files: energy of electricity meters out of NAESB ESPI XML.</summary>
internal sealed class GreenButtonFile(MeterFileOptions options, ReadingNotes notes)
{
    private const int Electricity = 0;

    private readonly SeriesAssembly assembly = new(options, notes);

    public MeterReadings Read(TextReader text)
    {
        var feed = new EspiFeedReader(notes).Read(text);
        var map = new EspiMap(feed, notes);
        var groups = feed.Blocks.GroupBy(map.ReadingOf).OrderBy(g => g.Key).ToArray();
        if (groups.Length == 0)
        {
            notes.Fault("#", "A Green Button file must have at least one IntervalBlock.");
        }

        AskAboutLocalSeconds(feed);
        var channels = new List<MeterChannel>();
        if (notes.FaultCount == 0)
        {
            foreach (var group in groups)
            {
                channels.AddRange(Channels(feed, map, group.Key, [.. group]));
            }
        }

        CompareClocks(feed, channels);
        return new MeterReadings
        {
            Channels = channels,
            Guesses = notes.Guesses,
            Warnings = notes.Warnings,
            Skipped = notes.Skipped,
            Summaries = feed.Summaries,
        };
    }

    private IReadOnlyList<MeterChannel> Channels(EspiFeed feed, EspiMap map, int reading, List<IntervalBlock> blocks)
    {
        if (reading < 0)
        {
            notes.Skip($"{blocks.Count} blocks belong to no meter reading of the file, the first at {blocks[0].Pointer}.");
            return [];
        }

        var point = map.UsagePointOf(reading);
        var meter = point >= 0 ? feed.UsagePoints[point].Value : null;
        var name = $"meter {Math.Max(point, 0) + 1}, reading {reading + 1}";
        if (map.TypeOf(reading) is not { } type)
        {
            notes.Skip($"{name}: the file does not say what it measures (no ReadingType).");
            return [];
        }

        if (Why(meter, type) is { } reason)
        {
            notes.Skip($"{name}: {reason}.");
            return [];
        }

        if (meter is { IsGeneration: true })
        {
            notes.Warn($"{name}: the file marks this meter as one of generation (roleFlags).");
        }

        if (type.HasBucket)
        {
            notes.Warn($"{name}: its readings are those of one time-of-use period, tier or critical-peak period of the utility; they are not priced by it.");
        }

        return Flow(feed, blocks, name, meter, type) is { } flow ? assembly.Channels(flow) : [];
    }

    private static string? Why(UsagePoint? meter, ReadingType type) => (meter?.Service, type) switch
    {
        (not null and not Electricity, _) => $"service category {meter!.Service} is not electricity",
        (_, { Commodity: not (null or 0 or 1 or 2) }) => $"commodity {type.Commodity} is not electricity",
        (_, { Unit: null or 0 }) => "its unit is not stated (uom)",
        (_, { Unit: not (ReadingType.WattHours or ReadingType.Watts) }) => $"uom {type.Unit} is neither Wh (72) nor W (38)",
        (_, { Flow: not (null or 0 or ReadingType.Delivered or ReadingType.Net or ReadingType.Received) }) =>
            $"flow direction {type.Flow} is neither delivered, received nor net",
        (_, { Unit: ReadingType.WattHours, Accumulation: not (null or 0 or ReadingType.Register or ReadingType.Difference or ReadingType.Summation) }) =>
            $"accumulation behaviour {type.Accumulation} gives no energy of an interval",
        (_, { Unit: ReadingType.Watts, Accumulation: ReadingType.Register or ReadingType.Summation }) => "a register of power gives no energy",
        _ => null,
    };

    private MeteredFlow? Flow(EspiFeed feed, List<IntervalBlock> blocks, string name, UsagePoint? meter, ReadingType type)
    {
        var before = notes.FaultCount;
        var readings = new BlockReadings(feed, options, notes).Collect(blocks, type);
        FlowDirection? direction = type.Flow switch
        {
            ReadingType.Received => FlowDirection.Received,
            ReadingType.Net => null,
            _ => FlowDirection.Delivered,
        };
        var word = direction switch { FlowDirection.Received => "received", FlowDirection.Delivered => "delivered", _ => "net" };
        name = $"{name}, {word}";
        if (type.Flow is null or 0)
        {
            notes.Guess($"{name}: the file gives no flow direction; it is taken as delivered.");
        }

        if (type.Accumulation is null or 0 && type.Unit == ReadingType.WattHours)
        {
            notes.Guess($"{name}: the file does not say how readings accumulate; each is taken as the energy of its interval.");
        }

        var unusable = 0;
        if (type.Accumulation is ReadingType.Register or ReadingType.Summation)
        {
            readings = RegisterDifferences.Of(readings, mayFall: direction is null, out unusable);
            notes.Warn($"{name}: readings of a register; energy is the difference between neighbours"
                + (unusable > 0 ? $", and {unusable} differences were left out because it ran backwards (exchanged or rolled over)." : "."));
        }

        if (type.Unit == ReadingType.Watts)
        {
            notes.Warn($"{name}: readings of power, each taken to hold for its whole interval.");
        }

        Scale(readings, type);
        var costs = blocks.Where(b => b.Cost is not null).Sum(b => b.Cost);
        return notes.FaultCount > before ? null : new(name, type.Pointer, direction, meter is { IsVehicle: true }, readings)
        {
            StatedCost = blocks.Any(b => b.Cost is not null) ? costs / 100_000m : null,
            Unusable = unusable,
        };
    }

    private void Scale(RawReading[] readings, ReadingType type)
    {
        for (var i = 0; i < readings.Length; i++)
        {
            var reading = readings[i];
            var energy = type.Unit == ReadingType.Watts
                ? EnergyScale.MicroKilowattHours(reading.Value, type.PowerOfTen, reading.Duration)
                : EnergyScale.MicroKilowattHours(reading.Value, type.PowerOfTen);
            if (energy is not { } micro)
            {
                notes.Fault(type.Pointer, "The energy of an interval must be at most 1000000 kWh.", $"{reading.Value} x 10^{type.PowerOfTen}");
                return;
            }

            readings[i] = reading.With(reading.Start, reading.Duration, micro);
        }
    }

    /// <summary>Seconds should count from 1970 in UTC. Where every block of a day begins at 00:00 UTC though the local clock is elsewhere, they may be local
    /// ones, and a guess would shift the whole year.</summary>
    private void AskAboutLocalSeconds(EspiFeed feed)
    {
        var days = feed.Blocks.Where(b => b.Start is not null && b.Duration >= 82_800).ToArray();
        if (options.EpochSeconds != EpochSeconds.NotSaid || days.Length == 0 || days.Any(b => b.Start % 86_400 != 0))
        {
            return;
        }

        var offset = feed.Clocks.Count > 0 ? feed.Clocks[0].Standard : options.Zone.GetUtcOffset(Instant.FromUnixTimeSeconds(days[0].Start!.Value)).Seconds;
        if (offset != 0)
        {
            notes.Fault(
                days[0].Pointer + "/interval/start",
                "Every block of a day begins at 00:00 UTC, though the local clock is not UTC: some utilities write local seconds. Say which: epochSeconds utc or local.",
                $"{days[0].Start}");
        }
    }

    private void CompareClocks(EspiFeed feed, List<MeterChannel> channels)
    {
        foreach (var clock in feed.Clocks.Distinct())
        {
            foreach (var series in channels.Select(c => c.Series))
            {
                if (clock.DiffersFrom(options.Zone, series.Start, series.End) is { } at)
                {
                    notes.Warn($"The file's clock is not that of {options.Zone.Id}: on {at.InZone(options.Zone).Date:uuuu-MM-dd} it is "
                        + $"{Offset.FromSeconds(clock.OffsetAt(at))} from UTC, the household's {options.Zone.GetUtcOffset(at)}. Days are those of the household's zone.");
                    break;
                }
            }
        }
    }
}
