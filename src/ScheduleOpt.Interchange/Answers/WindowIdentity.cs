using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Gives charging windows identifiers that the next answer about the same stay finds again.</summary>
/// <remarks>
/// A window is known by its car's name, by the departure before which it lies, and by its number counted back from that departure: what is past,
/// cost and energy change none of these. A window of an earlier answer that overlaps one of this, or has its identifier, is the same window, moved.
/// </remarks>
public sealed class WindowIdentity
{
    // Nobody can own a name under .invalid (RFC 2606, section 2): the identifiers belong to no host.
    private const string Domain = "@charging.invalid";

    private static readonly LocalDateTimePattern Stamp = LocalDateTimePattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmm");

    private readonly CarRequest car;
    private readonly DateTimeZone zone;
    private readonly Instant[] departures;

    /// <summary>Prepares the identifiers of a car's windows.</summary>
    /// <param name="car">The car.</param>
    /// <param name="zone">The household's zone.</param>
    public WindowIdentity(CarRequest car, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(car);
        (this.car, this.zone) = (car, zone);
        departures = [.. car.Calendar.Trips.Select(t => t.Departure).Order()];
    }

    /// <summary>Names windows.</summary>
    /// <param name="windows">The steps of each window, in order.</param>
    /// <param name="start">Start of the plan: a window that begins there may have begun before.</param>
    /// <param name="asOf">When the question was asked.</param>
    /// <returns>The windows, and what of the earlier answer is withdrawn.</returns>
    public (IReadOnlyList<WindowAnswer> Windows, IReadOnlyList<PreviousWindow> Withdrawn) Name(
        IReadOnlyList<IReadOnlyList<StepAnswer>> windows, Instant start, Instant asOf)
    {
        ArgumentNullException.ThrowIfNull(windows);
        var earlier = Named(car.Previous?.Windows ?? []);
        var own = Uids([.. windows.Select(w => (w[0].Start, w[^1].End))]);
        var same = Matches(windows, own, earlier);
        var taken = earlier.Select(e => e.Uid!).ToHashSet(StringComparer.Ordinal);
        var named = new List<WindowAnswer>(windows.Count);
        for (var i = 0; i < windows.Count; i++)
        {
            if (same[i] is not { } before)
            {
                named.Add(new(Free(own[i], taken), 0, windows[i], windows[i][0].Start));
                continue;
            }

            var begun = windows[i][0].Start == start && before.Start < start ? before.Start : windows[i][0].Start;
            var isSame = begun == before.Start && windows[i][^1].End == before.End && IsSameCurrent(windows[i], before);
            named.Add(new(before.Uid!, isSame ? before.Sequence : before.Sequence + 1, windows[i], begun));
        }

        return (named, [.. earlier.Where(e => e.End > asOf && !same.Contains(e))]);
    }

    private static bool IsSameCurrent(IReadOnlyList<StepAnswer> steps, PreviousWindow before) =>
        before.CurrentA is not { } current || steps.All(s => Math.Abs(s.CurrentA - current) < 0.05);

    private static PreviousWindow?[] Matches(IReadOnlyList<IReadOnlyList<StepAnswer>> windows, string[] own, IReadOnlyList<PreviousWindow> earlier)
    {
        var same = new PreviousWindow?[windows.Count];
        var left = earlier.ToList();

        // The largest overlaps first; then, of what is left, those of the same place in the same stay.
        var overlaps =
            from i in Enumerable.Range(0, windows.Count)
            from e in earlier
            let overlap = Instant.Min(windows[i][^1].End, e.End) - Instant.Max(windows[i][0].Start, e.Start)
            where overlap > Duration.Zero
            orderby overlap descending, i
            select (i, e);
        foreach (var (i, e) in overlaps.ToArray())
        {
            if (same[i] is null && left.Remove(e))
            {
                same[i] = e;
            }
        }

        for (var i = 0; i < same.Length; i++)
        {
            if (same[i] is null && left.Find(e => e.Uid == own[i]) is { } moved)
            {
                left.Remove(moved);
                same[i] = moved;
            }
        }

        return same;
    }

    /// <summary>The earlier windows, those without an identifier with the one that they would have had.</summary>
    private PreviousWindow[] Named(IReadOnlyList<PreviousWindow> windows)
    {
        var own = Uids([.. windows.Select(w => (w.Start, w.End))]);
        var taken = windows.Select(w => w.Uid).OfType<string>().ToHashSet(StringComparer.Ordinal);
        return [.. windows.Select((w, i) => w.Uid is null ? w with { Uid = Free(own[i], taken) } : w)];
    }

    private static string Free(string uid, HashSet<string> taken)
    {
        for (var n = 1; !taken.Add(uid); n++)
        {
            var at = uid.LastIndexOf("-w", StringComparison.Ordinal) + 2;
            uid = string.Create(CultureInfo.InvariantCulture, $"{uid[..at]}{n}{Domain}");
        }

        return uid;
    }

    private string[] Uids((Instant Start, Instant End)[] windows)
    {
        var uids = new string[windows.Length];
        var number = 0;
        for (var i = windows.Length - 1; i >= 0; i--)
        {
            var stay = StayOf(windows[i].Start);
            number = i + 1 < windows.Length && StayOf(windows[i + 1].Start) == stay ? number + 1 : 1;
            uids[i] = string.Create(CultureInfo.InvariantCulture, $"{Of(car.Name)}-{stay}-w{number}{Domain}");
        }

        return uids;
    }

    private string StayOf(Instant at)
    {
        var next = Array.FindIndex(departures, d => d > at);
        return next < 0 ? "open" : Stamp.Format(departures[next].InZone(zone).LocalDateTime);
    }

    // A digest beside the readable part: two names may be the same in plain letters.
    private static string Of(string name)
    {
        var plain = new string([.. name.ToLowerInvariant().Where(char.IsAsciiLetterOrDigit).Take(24)]);
        var digest = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(name)).AsSpan(0, 4));
        return $"charge-{(plain.Length > 0 ? plain + "-" : "")}{digest}";
    }
}
