using System.Globalization;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Core;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Outputs;

/// <summary>Writes charging windows as an iCalendar text that a calendar can subscribe to (RFC 5545; RFC 7986 for name and refresh interval).</summary>
/// <remarks>Times are in UTC, so that the text needs no time zone. DTSTAMP is the instant of the question: equal input gives equal bytes.</remarks>
public static class CalendarFeed
{
    /// <summary>The media type.</summary>
    public const string MediaType = "text/calendar; charset=utf-8";

    private static readonly InstantPattern Utc = InstantPattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmmss'Z'");

    /// <summary>Writes the windows of all cars, and those of the earlier answer that are withdrawn, as UTF-8.</summary>
    public static byte[] Write(ScheduleAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var lines = new FoldedLines();
        lines.Add("BEGIN", "VCALENDAR");
        lines.Add("VERSION", "2.0");
        lines.Add("PRODID", "-//ScheduleOpt//Charging schedule 1//EN");
        lines.Add("CALSCALE", "GREGORIAN");
        lines.AddText("NAME", "Charging");
        lines.Add("REFRESH-INTERVAL;VALUE=DURATION", "PT1H");
        var isEmpty = true;
        foreach (var car in answer.Cars)
        {
            var summary = answer.Request.CarsAreListed ? $"Charge {car.Car.Name}" : "Charge the car";
            foreach (var window in car.Windows)
            {
                isEmpty = false;
                Begin(lines, window.Uid, window.Sequence, answer.Request.AsOf, window.BegunAt, window.End, summary);
                lines.AddText("DESCRIPTION", Description(window, answer.Request.RatePlan.Currency, answer.Request.Zone.Zone));
                lines.Add("STATUS", "CONFIRMED");
                lines.Add("END", "VEVENT");
            }

            foreach (var window in car.Withdrawn)
            {
                isEmpty = false;
                Begin(lines, window.Uid!, window.Sequence + 1, answer.Request.AsOf, window.Start, window.End, summary);
                lines.Add("STATUS", "CANCELLED");
                lines.Add("END", "VEVENT");
            }
        }

        if (isEmpty)
        {
            AddNothing(lines);
        }

        lines.Add("END", "VCALENDAR");
        return lines.ToUtf8();
    }

    private static void Begin(FoldedLines lines, string uid, int sequence, Instant asOf, Instant start, Instant end, string summary)
    {
        lines.Add("BEGIN", "VEVENT");
        lines.AddText("UID", uid);
        lines.Add("DTSTAMP", Utc.Format(asOf));
        lines.Add("SEQUENCE", sequence.ToString(CultureInfo.InvariantCulture));
        lines.Add("DTSTART", Utc.Format(start));
        lines.Add("DTEND", Utc.Format(end));
        lines.AddText("SUMMARY", summary);
        lines.Add("CATEGORIES", "CHARGING");

        // A charging car takes nobody's time.
        lines.Add("TRANSP", "TRANSPARENT");
    }

    // Energy and cost stand here, not in the summary: they may change without the window being another.
    private static string Description(WindowAnswer window, string currency, DateTimeZone zone)
    {
        var cost = $"{AnswerJson.Amount(AnswerJson.Money(window.Cost, currency))} {currency}";
        var text = string.Create(CultureInfo.InvariantCulture, $"{window.WallKwh:0.0} kWh at up to {window.CurrentA:0.#} A, about {cost}.");
        return window.Steps.Count == 1
            ? text
            : text + "\n" + string.Join('\n', window.Steps.Select(s => string.Create(
                CultureInfo.InvariantCulture, $"{s.Start.InZone(zone):HH:mm} {s.CurrentA:0.#} A")));
    }

    // A calendar needs a component: with nothing to charge, the definition of the zone that all times here are in.
    private static void AddNothing(FoldedLines lines)
    {
        lines.Add("BEGIN", "VTIMEZONE");
        lines.Add("TZID", "Etc/UTC");
        lines.Add("BEGIN", "STANDARD");
        lines.Add("DTSTART", "19700101T000000");
        lines.Add("TZOFFSETFROM", "+0000");
        lines.Add("TZOFFSETTO", "+0000");
        lines.Add("END", "STANDARD");
        lines.Add("END", "VTIMEZONE");
    }
}
