using NodaTime;
using ScheduleOpt.Core;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads <c>previous</c>: what an earlier answer planned, of a request's only car or of each of its cars.</summary>
internal static class PreviousReader
{
    private const int MostWindows = 500, LongestUid = 200;

    // An answer of one question after another for years.
    private static readonly Limits Sequences = new(0, 1_000_000) { Whole = true };

    /// <summary>Reads what was planned for a car that is listed.</summary>
    public static PreviousSchedule? ReadCar(JsonField? field, DocumentClock clock) =>
        field?.Members("windows", "expectedStateOfCharge") is { } previous ? Schedule(previous, clock) : null;

    /// <summary>Reads what the options say: the schedule of the only car, and what a change must save.</summary>
    /// <param name="field">The object.</param>
    /// <param name="clock">The clock of its times.</param>
    /// <param name="isListed">Whether cars are listed, each with its own.</param>
    /// <returns>The schedule, and the saving below which the earlier windows are kept. [currency]</returns>
    public static (PreviousSchedule? Schedule, decimal KeepUnlessCheaperBy) ReadOptions(JsonField? field, DocumentClock clock, bool isListed)
    {
        if (field?.Members("windows", "keepUnlessCheaperBy", "expectedStateOfCharge") is not { } previous)
        {
            return (null, 0);
        }

        var keep = previous.Optional("keepUnlessCheaperBy")?.Exact(new(0, 1000, "in the rate plan's currency")) ?? 0;
        if (!isListed)
        {
            return (Schedule(previous, clock), keep);
        }

        foreach (var name in new[] { "windows", "expectedStateOfCharge" })
        {
            if (previous.Has(name))
            {
                previous.Faults.Add(previous.Pointer(name), "Each of cars has its own: give it as previous of the car.");
            }
        }

        return (null, keep);
    }

    private static PreviousSchedule? Schedule(JsonMembers previous, DocumentClock clock)
    {
        var expected = previous.Optional("expectedStateOfCharge")?.Number(Limits.Fraction);
        if (previous.Required("windows", "Give the windows of the earlier answer, or [].")?.Items(0, MostWindows, "windows") is not { } items)
        {
            return null;
        }

        var windows = new List<PreviousWindow>(items.Count);
        foreach (var item in items)
        {
            if (Window(item, clock) is not { } window)
            {
                continue;
            }

            if (windows.Count > 0 && window.Start < windows[^1].End)
            {
                item.Faults.Add($"{item.Pointer}/start", "Must not be before the end of the window before it.", clock.Stamp(window.Start));
            }

            if (window.Uid is { } uid && windows.Any(w => w.Uid == uid))
            {
                item.Faults.Add($"{item.Pointer}/uid", "Must be unique among the windows.", uid);
            }

            windows.Add(window);
        }

        return new(windows, expected is { } state ? StateOfCharge.FromFraction(state) : null);
    }

    private static PreviousWindow? Window(JsonField item, DocumentClock clock)
    {
        if (item.Members("start", "end", "currentA", "uid", "sequence") is not { } window)
        {
            return null;
        }

        var start = clock.Read(window.Required("start"), DocumentClock.Use.Departure)?.Instant;
        var end = clock.Read(window.Required("end"), DocumentClock.Use.Return)?.Instant;
        var current = window.Optional("currentA")?.Number(new(0, 125, "A") { LowExcluded = true });
        var sequence = (int)window.Number("sequence", Sequences, 0);
        var uid = window.Optional("uid")?.Text(LongestUid);
        if (uid?.Any(char.IsControl) == true)
        {
            window.Optional("uid")!.Value.Fault("Must hold no control characters.");
        }

        if (start >= end)
        {
            window.Optional("end")!.Value.Fault("Must be after start.");
            return null;
        }

        return start is { } begin && end is { } finish ? new(begin, finish, current, uid, sequence) : null;
    }
}
