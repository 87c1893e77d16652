using NodaTime;
using ScheduleOpt.Interchange.Meters;
using ScheduleOpt.Interchange.Meters.Csv;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Prices;

/// <summary>Puts the rows of a table of prices into equal intervals.</summary>
internal sealed class PriceRows(IReadOnlyList<PriceRow> rows, DateTimeZone zone, bool isEnd, ReadingNotes notes)
{
    private const int Hour = 3600, Day = 86_400, MostIntervals = 100_000;
    private readonly LegalClock clock = new(zone);

    /// <summary>The series; none, with faults, where rows do not fit together.</summary>
    public PriceSeries? Series()
    {
        var ordered = rows.Count > 1 && At(rows[0]) > At(rows[^1]) ? rows.Reverse().ToArray() : [.. rows];
        var length = Length(ordered);
        if (length % 60 != 0)
        {
            notes.Fault("#", "Prices must be for whole minutes.", $"{length} s");
            return null;
        }

        var starts = Starts(ordered, length);
        if (notes.FaultCount > 0)
        {
            return null;
        }

        var count = ((starts[^1] - starts[0]) / length) + 1;
        if (count > MostIntervals)
        {
            notes.Fault("#", $"From the first to the last price there may be at most {MostIntervals} intervals.", $"{count}");
            return null;
        }

        var prices = new decimal?[count];
        for (var i = 0; i < ordered.Length; i++)
        {
            prices[(starts[i] - starts[0]) / length] = ordered[i].PerKwh;
        }

        return new(Instant.FromUnixTimeSeconds(starts[0]), Duration.FromSeconds(length), prices);
    }

    // By the clock of the table; an offset moves it to UTC.
    private static long At(PriceRow row) => row.Stamp.Seconds - (row.Stamp.Offset?.Seconds ?? 0);

    private int Length(PriceRow[] ordered)
    {
        var steps = ordered.Zip(ordered.Skip(1), (a, b) => At(b) - At(a)).Where(s => s is > 0 and <= Day).CountBy(s => s).ToArray();
        if (steps.Length > 0)
        {
            return (int)steps.OrderByDescending(s => s.Value).ThenBy(s => s.Key).First().Key;
        }

        notes.Guess("The table does not say how long its prices hold; each is taken to be for an hour.");
        return Hour;
    }

    private long[] Starts(PriceRow[] ordered, int length)
    {
        var starts = new long[ordered.Length];
        var before = long.MinValue / 2;
        for (var i = 0; i < ordered.Length; i++)
        {
            var row = ordered[i];
            var isSkipped = false;
            if (row.Stamp.Offset is not null)
            {
                starts[i] = At(row) - (isEnd ? length : 0);
            }
            else if (length == Day)
            {
                starts[i] = clock.Start(At(row) - (isEnd ? length : 0), 0, before).Start;
            }
            else
            {
                (starts[i], isSkipped) = clock.Start(At(row) - (isEnd ? length : 0), isEnd ? length : 0, before);
            }

            if (isSkipped)
            {
                notes.Fault("#", "The clock skips this time; no price can begin at it.", Shown(row), row.Line);
            }
            else if (i > 0 && starts[i] <= starts[i - 1])
            {
                notes.Fault("#", "Each interval must be given once, in order of time.", Shown(row), row.Line);
            }
            else if (i > 0 && (starts[i] - starts[0]) % length != 0)
            {
                notes.Fault("#", $"Prices must follow one another by {length / 60} min, as most of the table does.", Shown(row), row.Line);
            }

            before = starts[i] + length;
        }

        return starts;
    }

    private static string Shown(PriceRow row) => LegalClock.LocalOf(row.Stamp.Seconds).ToString("uuuu-MM-dd HH:mm", null);
}
