using System.Text.Json;
using NodaTime;
using ScheduleOpt.Interchange.Calendars;
using ScheduleOpt.Interchange.Demo;

namespace ScheduleOpt.Interchange.Tests.Demo;

public sealed class DemoHouseholdTests
{
    private static readonly Instant NewYear = Instant.FromUtc(2026, 1, 1, 6, 0);

    [Fact]
    public void Calendar_OverThirteenMonths_IsReadWithoutFaultOrWarning()
    {
        var reading = ReadCalendar();

        Assert.Empty(reading.Faults);
        Assert.Empty(reading.Value.Warnings);
        Assert.Empty(reading.Value.Ignored);
    }

    [Fact]
    public void Calendar_TheNightAsked_HasTheCommuteNextAndTheLongTripAfterIt()
    {
        var next = ReadCalendar().Value.Trips.Where(t => t.Departure >= DemoHousehold.AsOf).Take(3).ToArray();

        Assert.Equal(["Commute", "Thursday sport", "Visit to a customer"], next.Select(t => t.Label));
        Assert.Equal(Instant.FromUtc(2026, 1, 16, 12, 40), next[2].Departure);
        Assert.Equal(200, next[2].Distance.Kilometres, 9);
    }

    [Fact]
    public void Calendar_TheNightAsked_NoTripIsUnderWay() =>
        Assert.DoesNotContain(ReadCalendar().Value.Trips, t => t.Departure <= DemoHousehold.AsOf && DemoHousehold.AsOf < t.Return);

    [Fact]
    public void Calendar_TheSummerHoliday_HasNoCommuteInIt()
    {
        var trips = ReadCalendar().Value.Trips;
        var holiday = Assert.Single(trips, t => t.Label == "Summer holiday at the lake");

        Assert.DoesNotContain(trips, t => t != holiday && t.Departure < holiday.Return && t.Return > holiday.Departure);
    }

    [Fact]
    public void Weather_TheNightAsked_IsColdAsPublished()
    {
        // TMY2 Fargo ND, 14 January, hour starting 17:00: -12.8 degC.
        Assert.Equal(-12.8, DemoHousehold.WeatherYear.Celsius[(13 * 24) + 17]);
        Assert.Equal(-35.0, DemoHousehold.WeatherYear.Celsius.Min());
        Assert.True(DemoHousehold.WeatherYear.IsTypical);
        Assert.Contains("NREL/ssc", DemoHousehold.WeatherYear.Source, StringComparison.Ordinal);
    }

    [Fact]
    public void TonightJson_ItsParts_AreThoseOfTheHousehold()
    {
        using var json = JsonDocument.Parse(DemoHousehold.TonightJson);
        var root = json.RootElement;

        Assert.Equal(DemoHousehold.CalendarText, root.GetProperty("calendar").GetProperty("ics").GetString());
        Assert.Equal(DemoHousehold.PlugInStateOfCharge.Fraction, root.GetProperty("plugIn").GetProperty("stateOfCharge").GetDouble());
        Assert.Equal(DemoHousehold.TonightSetUp.Supply!.BreakerA, root.GetProperty("supply").GetProperty("breakerA").GetDouble());
        Assert.Equal(DemoHousehold.AnnualHouseKwh, root.GetProperty("houseLoad").GetProperty("annualKwh").GetDouble());
        var temperatures = root.GetProperty("weather").GetProperty("hourly").GetProperty("temperatureC").EnumerateArray().Select(t => t.GetDouble());
        Assert.Equal(DemoHousehold.WeatherYear.Celsius.Skip((13 * 24) + 17).Take(192), temperatures);
    }

    [Fact]
    public void YearJson_ItsParts_AreThoseOfTheHousehold()
    {
        using var json = JsonDocument.Parse(DemoHousehold.YearJson);
        var root = json.RootElement;

        Assert.Equal(DemoHousehold.CalendarText, root.GetProperty("calendar").GetProperty("ics").GetString());
        Assert.Equal(DemoHousehold.WeatherCsvText, root.GetProperty("weather").GetProperty("csv").GetString());
        Assert.Equal(DemoHousehold.Year, root.GetProperty("year").GetInt32());
        Assert.Equal(DemoHousehold.SetUps.Select(s => s.Name), root.GetProperty("setUps").EnumerateArray().Select(s => s.GetProperty("name").GetString()));
        Assert.Equal(
            DemoHousehold.SetUps.Select(s => s.Supply?.VoltageV),
            root.GetProperty("setUps").EnumerateArray().Select(s => s.TryGetProperty("supply", out var supply) ? supply.GetProperty("voltageV").GetInt32() : (int?)null));
        Assert.True(DemoHousehold.YearJson.Length < 1_048_576);
    }

    private static Reading<CalendarReading> ReadCalendar() =>
        CalendarText.Read(DemoHousehold.CalendarText, DemoHousehold.Zone, NewYear, NewYear + Duration.FromDays(396), new CalendarReadingOptions());
}
