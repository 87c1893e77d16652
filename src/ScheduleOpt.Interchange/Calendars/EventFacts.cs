using System.Globalization;
using ScheduleOpt.Core;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>What an event says beside its times: what it is called, whether it is a trip, how far, with which target.</summary>
internal sealed class EventFacts
{
    private const string DistanceRule =
        "X-TRIP-DISTANCE states the distance home to home as a plain number above 0, with X-UNIT=km or X-UNIT=mi, at most 5000 km.";

    private const string TargetRule = "X-TARGET-STATE-OF-CHARGE is a fraction from 0 to 1, or per cent with the sign.";

    private EventFacts(CalendarComponent component) => Component = component;

    /// <summary>The event.</summary>
    internal CalendarComponent Component { get; }

    /// <summary>Its UID; empty if it has none.</summary>
    internal string Uid { get; private init; } = "";

    /// <summary>Its summary, fit for messages.</summary>
    internal string Label { get; private init; } = "";

    /// <summary>Whether it is cancelled.</summary>
    internal bool Cancelled { get; private init; }

    /// <summary>Whether its categories mark it as driving.</summary>
    internal bool MarkedDriving { get; private init; }

    /// <summary>Revision: the sequence number, then the stamp.</summary>
    internal (int Sequence, string Stamp) Revision { get; private init; }

    /// <summary>The distance it carries; none if it carries none.</summary>
    internal Distance? Distance { get; private init; }

    /// <summary>The state of charge it asks for at departure.</summary>
    internal StateOfCharge? Target { get; private init; }

    /// <summary>Reads an event; faults and warnings are added to the lists.</summary>
    internal static EventFacts Read(CalendarComponent component, string pointer, List<Fault> faults, List<string> warnings)
    {
        var summary = component.First("SUMMARY")?.Text() ?? "";
        var label = Shortened.Text(summary, 120);
        var text = $"{summary}\n{component.First("DESCRIPTION")?.Text()}";
        _ = int.TryParse(component.First("SEQUENCE")?.Value, NumberStyles.None, CultureInfo.InvariantCulture, out var sequence);
        return new EventFacts(component)
        {
            Uid = component.First("UID")?.Value.Trim() ?? "",
            Label = label,
            Cancelled = component.First("STATUS")?.Value.Trim().ToUpperInvariant() == "CANCELLED",
            MarkedDriving = component.All("CATEGORIES").SelectMany(l => l.TextList()).Contains("DRIVING", StringComparer.OrdinalIgnoreCase),
            Revision = (sequence, component.First("DTSTAMP")?.Value.Trim() ?? ""),
            Distance = Stated(component, pointer, faults, label, warnings) ?? Written(text, label, warnings),
            Target = component.First("X-TARGET-STATE-OF-CHARGE") is { } target ? ReadTarget(target, pointer, faults) : null,
        };
    }

    private static Distance? Stated(CalendarComponent component, string pointer, List<Fault> faults, string label, List<string> warnings)
    {
        var distances = new List<Distance>();
        foreach (var line in component.All("X-TRIP-DISTANCE"))
        {
            var unit = line.Parameters.GetValueOrDefault("X-UNIT", "").ToUpperInvariant();
            if (Number(line.Value) is { } number and > 0 && unit is "KM" or "MI"
                && (unit == "KM" ? number : number * Core.Distance.KilometresPerMile) <= CalendarLimits.DistanceKm)
            {
                distances.Add(unit == "KM" ? Core.Distance.FromKilometres(number) : Core.Distance.FromMiles(number));
            }
            else
            {
                faults.Add(new Fault(pointer, DistanceRule, Shortened.Text($"X-UNIT={unit}:{line.Value}"), line.Line));
            }
        }

        return Largest(distances, label, warnings);
    }

    private static Distance? Written(string text, string label, List<string> warnings)
    {
        var searched = text.Length > 20_000 ? text[..20_000] : text;
        return Largest([.. DistanceText.In(searched).Where(d => d.Kilometres <= CalendarLimits.DistanceKm)], label, warnings);
    }

    // Two units of one distance ("40 mi, 64 km") agree within a hundredth.
    private static Distance? Largest(List<Distance> distances, string label, List<string> warnings)
    {
        if (distances.Count == 0)
        {
            return null;
        }

        var (least, most) = (distances.Min(), distances.Max());
        if (least.Kilometres < 0.99 * most.Kilometres)
        {
            warnings.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"'{label}' states more than one distance ({least.Kilometres:0.#} to {most.Kilometres:0.#} km); the largest was taken."));
        }

        return most;
    }

    private static StateOfCharge? ReadTarget(ContentLine line, string pointer, List<Fault> faults)
    {
        var text = line.Value.Trim();
        var fraction = text.EndsWith('%') ? Number(text[..^1]) / 100 : Number(text);
        if (fraction is >= 0 and <= 1)
        {
            return StateOfCharge.FromFraction(fraction.Value);
        }

        faults.Add(new Fault(pointer, TargetRule, Shortened.Text(text), line.Line));
        return null;
    }

    private static double? Number(string text) =>
        text.Length <= 30
        && double.TryParse(text.Trim(), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
        && double.IsFinite(number)
            ? number
            : null;
}
