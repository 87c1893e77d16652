using System.Text.Json;
using NodaTime.Text;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.SetUps;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Writes one cell of a comparison.</summary>
internal static class ComparisonCellWriter
{
    private const int KwhDigits = 3, ShareDigits = 5;

    /// <summary>Writes a cell.</summary>
    public static void Write(Utf8JsonWriter json, DecisionCell decided, string currency)
    {
        var cell = decided.Year;
        json.WriteStartObject();
        json.WriteString("setUp", cell.SetUp.Name);
        json.WriteString("ratePlan", cell.RatePlan.Id);
        json.WriteString("behaviour", cell.Behaviour?.Name);
        if (cell.HousePlan is { } house)
        {
            json.WriteString("housePlan", house.Id);
        }

        json.WriteNumber("rank", cell.Rank);
        json.WriteMoney("wholeHouseCost", new Money(cell.WholeHouseCost, currency));
        if (cell.BoundCost is { } bound)
        {
            json.WriteMoney("boundCost", new Money(bound, currency));
        }

        json.WriteMoney("carCost", new Money(cell.CarCost, currency));
        json.WriteMoney("carShareOfBill", new Money(cell.CarShare, currency));
        WriteBill(json, "billWithCar", cell.BillWithCar);
        WriteBill(json, "billWithoutCar", cell.BillWithoutCar);
        WriteEnergy(json, cell.Energy);
        WriteAway(json, cell.Away, currency);
        WriteReadiness(json, "readiness", cell.Readiness);
        WriteReadiness(json, "coldestWeekReadiness", cell.ColdestWeek);
        WriteDays(json, "coldestWeekDays", cell.ColdestWeekDays);
        json.WriteStartObject("shortDays");
        json.WriteNumber("count", cell.ShortDays.Count);
        json.WriteSentences("dates", cell.ShortDays.Select(d => LocalDatePattern.Iso.Format(d.Date)));
        json.WriteEndObject();
        json.WriteStartObject("endCorrection");
        json.WriteRounded("missingKwh", cell.EndCorrection.MissingKwh, KwhDigits);
        json.WriteRounded("pricePerStoredKwh", (double)cell.EndCorrection.PricePerStoredKwh, 6);
        json.WriteMoney("cost", new Money(cell.EndCorrection.Cost, currency));
        json.WriteEndObject();
        if (decided.LifeCycle is not null)
        {
            LifeCycleWriter.Write(json, decided, currency);
        }

        json.WriteSentences("warnings", cell.Warnings);
        json.WriteEndObject();
    }

    /// <summary>Writes readiness day by day.</summary>
    public static void WriteDays(Utf8JsonWriter json, string name, IReadOnlyList<DayReadiness> days)
    {
        json.WriteStartArray(name);
        foreach (var day in days)
        {
            json.WriteStartObject();
            json.WriteString("date", LocalDatePattern.Iso.Format(day.Date));
            json.WriteRounded("meanC", day.MeanC, 2);
            json.WriteNumber("departures", day.Readiness.Departures);
            json.WriteNumber("ready", day.Readiness.Ready);
            json.WriteNumber("onTarget", day.Readiness.OnTarget);
            json.WriteRounded("tripShortfallKwh", day.Readiness.TripShortfallKwh, KwhDigits);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteBill(Utf8JsonWriter json, string name, Bill bill)
    {
        json.WriteStartObject(name);
        json.WriteMoney("total", new Money(bill.Total, bill.Currency));
        json.WriteTotalsByPart(bill);
        json.WriteStartArray("periodTotals");
        foreach (var period in bill.Periods)
        {
            json.WriteStringValue(AnswerJson.Amount(new Money(period.Total, bill.Currency)));
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteEnergy(Utf8JsonWriter json, YearEnergy energy)
    {
        json.WriteStartObject("energy");
        json.WriteRounded("homeWallKwh", energy.HomeWallKwh, KwhDigits);
        json.WriteRounded("homeStoredKwh", energy.HomeStoredKwh, KwhDigits);
        json.WriteRounded("homeLossKwh", energy.HomeLossKwh, KwhDigits);
        json.WriteRounded("driveKwh", energy.DriveKwh, KwhDigits);
        json.WriteRounded("tripShortfallKwh", energy.TripShortfallKwh, KwhDigits);
        json.WriteEndObject();
    }

    private static void WriteAway(Utf8JsonWriter json, AwayCharging away, string currency)
    {
        json.WriteStartObject("awayCharging");
        json.WriteRounded("publicKwh", away.PublicKwh, KwhDigits);
        json.WriteMoney("publicCost", new Money(away.PublicCost, currency));
        json.WriteRounded("stopKwh", away.StopKwh, KwhDigits);
        json.WriteMoney("stopCost", new Money(away.StopCost, currency));
        json.WriteMoney("cost", new Money(away.Cost, currency));
        if (away.Sessions is { } year)
        {
            WriteSessions(json, year, currency);
        }

        json.WriteEndObject();
    }

    private static void WriteSessions(Utf8JsonWriter json, PublicYear year, string currency)
    {
        json.WriteStartObject("sessions");
        json.WriteNumber("count", year.Sessions);
        json.WriteRounded("kwhEach", year.Session.MeterKwh, KwhDigits);
        json.WriteRounded("minutesEach", year.Session.Minutes, 1);
        json.WriteMoney("costEach", new Money(year.Session.Cost, currency));
        json.WriteRounded("detourHours", year.DetourHours, 2);
        if (year.DetourValue is { } value)
        {
            json.WriteMoney("detourValue", new Money(value, currency));
        }

        json.WriteEndObject();
    }

    private static void WriteReadiness(Utf8JsonWriter json, string name, Readiness readiness)
    {
        json.WriteStartObject(name);
        json.WriteNumber("departures", readiness.Departures);
        json.WriteNumber("ready", readiness.Ready);
        json.WriteNumber("onTarget", readiness.OnTarget);
        WriteShare(json, "share", readiness.Share);
        WriteShare(json, "onTargetShare", readiness.OnTargetShare);
        json.WriteRounded("tripShortfallKwh", readiness.TripShortfallKwh, KwhDigits);
        json.WriteRounded("targetShortfallKwh", readiness.TargetShortfallKwh, KwhDigits);
        json.WriteEndObject();
    }

    private static void WriteShare(Utf8JsonWriter json, string name, double? share)
    {
        if (share is { } value)
        {
            json.WriteRounded(name, value, ShareDigits);
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
