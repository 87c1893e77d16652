using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Interchange.Outputs;

/// <summary>Writes a schedule as a table: its intervals, or its windows with a row for each while at one current.</summary>
public static class ScheduleCsv
{
    /// <summary>The media type.</summary>
    public const string MediaType = "text/csv; charset=utf-8; header=present";

    /// <summary>Writes the intervals of all cars as UTF-8.</summary>
    public static byte[] WriteIntervals(ScheduleAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var table = new CsvTable(
            "car", "start", "end", "place", "temperature_c", "period", "price_per_kwh", "currency", "charging_share", "current_a", "energy_kwh",
            "state_of_charge_at_end");
        foreach (var car in answer.Cars)
        {
            var span = 0;
            foreach (var interval in car.Intervals)
            {
                table.Text(car.Car.Name).Word(Time(answer, interval.Start)).Word(Time(answer, interval.End))
                    .Word(ScheduleAnswerWriter.NameOf(interval.Place)).Number(interval.TemperatureC, 2)
                    .Text(interval.Place == Place.Home ? PeriodAt(answer.Prices.Spans, interval.Start, ref span) : "")
                    .Number(interval.PricePerKwh, 6).Word(answer.Request.RatePlan.Currency).Number(interval.Share, 4).Number(interval.CurrentA, 3)
                    .Number(interval.WallKwh, 4).Number(interval.StoredKwhAtEnd / car.UsableKwh, 5);
            }
        }

        return table.ToUtf8();
    }

    /// <summary>Writes the windows of all cars as UTF-8.</summary>
    public static byte[] WriteWindows(ScheduleAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var table = new CsvTable("car", "uid", "sequence", "start", "end", "current_a", "power_kw", "energy_kwh", "cost", "currency");
        var currency = answer.Request.RatePlan.Currency;
        foreach (var car in answer.Cars)
        {
            var volts = car.Car.Supply.VoltsAcrossPhases;
            foreach (var window in car.Windows)
            {
                foreach (var step in window.Steps)
                {
                    table.Text(car.Car.Name).Text(window.Uid).Number(window.Sequence, 0).Word(Time(answer, step.Start)).Word(Time(answer, step.End))
                        .Number(step.CurrentA, 3).Number(step.CurrentA * volts / 1000, 3).Number(step.WallKwh, 4)
                        .Word(AnswerJson.Amount(AnswerJson.Money(step.Cost, currency))).Word(currency);
                }
            }
        }

        return table.ToUtf8();
    }

    private static string Time(ScheduleAnswer answer, Instant instant) =>
        OffsetDateTimePattern.Rfc3339.Format(instant.InZone(answer.Request.Zone.Zone).ToOffsetDateTime());

    private static string PeriodAt(IReadOnlyList<PriceSpan> spans, Instant at, ref int span)
    {
        while (span + 1 < spans.Count && spans[span + 1].Start <= at)
        {
            span++;
        }

        return spans[span].Period;
    }
}
