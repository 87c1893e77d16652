using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Interchange.Tests.Requests;

public sealed class ScheduleRequestReaderTests
{
    [Fact]
    public void Request_Smallest_HasTheDocumentedDefaults()
    {
        var request = RequestText.Schedule().Good();
        Assert.Equal(Instant.FromUtc(2026, 1, 14, 23, 30), request.AsOf);
        Assert.Equal(request.AsOf, request.Cars[0].PlugIn.At);
        Assert.Equal(0.155, request.Cars[0].Vehicle.Consumption.ReferenceKwhPerKm, 12);
        Assert.Equal(0.80, request.Cars[0].Vehicle.OrdinaryLimit.Fraction);
        Assert.Equal(1.00, request.Cars[0].Vehicle.ExtendedLimit.Fraction);
        Assert.Equal(0.10, request.Cars[0].Vehicle.Minimum.Fraction);
        Assert.Equal(ContinuousRatingRule.Unknown, request.Cars[0].Supply.Rule);
        Assert.Equal(new ScheduleOptions(), request.Options);
        Assert.Equal(Duration.FromMinutes(15), request.Options.GridStep);
        Assert.Equal(ShortfallOrder.InTimeOrder, request.Options.ShortfallOrder);
        Assert.Equal(Instant.FromUtc(2026, 1, 15, 13, 30), Assert.Single(request.Cars[0].Calendar.Trips).Departure);
    }

    [Fact]
    public void Request_WithManyFaults_NamesEachAtOnce()
    {
        var faults = RequestText.Schedule()
            .Set("timeZone", "\"Mars/Olympus\"")
            .Set("vehicle/usableEnergyKwh", "0.5")
            .Set("vehicle/colour", "\"red\"")
            .Set("supply/breakerA", "\"40\"")
            .Set("plugIn/stateOfCharge", "42")
            .Set("calendar/trips/0/distanceMi", "40")
            .Set("weather/temperatureC", "99")
            .Set("ratePlan", "\"none-such\"")
            .Read().Faults;
        Assert.Equal(
            [
                "#/calendar/trips/0/distanceMi", "#/plugIn/stateOfCharge", "#/ratePlan", "#/supply/breakerA", "#/timeZone", "#/vehicle/colour",
                "#/vehicle/usableEnergyKwh", "#/weather/temperatureC",
            ],
            faults.Select(f => f.Pointer).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Fault_OfANumber_NamesLimitsUnitAndValue()
    {
        var fault = RequestText.Schedule().Set("vehicle/usableEnergyKwh", "301").OnlyFault();
        Assert.Equal("Must be a number from 1 to 300 kWh.", fault.Rule);
        Assert.Equal("301", fault.Value);
    }

    [Theory]
    [InlineData("vehicle/ordinaryLimit", "0.1", "#/vehicle/minimumStateOfCharge")]
    [InlineData("vehicle/minimumStateOfCharge", "0.8", "#/vehicle/minimumStateOfCharge")]
    [InlineData("vehicle/extendedLimit", "0.7", "#/vehicle/ordinaryLimit")]
    [InlineData("supply/voltageV", "231", "#/supply/voltageV")]
    [InlineData("supply/phases", "3", "#/supply/voltageV")]
    [InlineData("supply/statedCurrentA", "20", "#/supply/statedCurrentA")]
    [InlineData("plugIn/at", "\"2026-01-14T17:29\"", "#/plugIn/at")]
    [InlineData("plugIn/at", "\"2026-01-15T07:30\"", "#/plugIn")]
    [InlineData("plugIn/at", "\"2026-01-15T17:59\"", "#/plugIn")]
    [InlineData("plugIn/at", "\"2026-02-14T12:00\"", "#/plugIn/at")]
    [InlineData("calendar/trips/0/return", "\"2026-01-15T07:30\"", "#/calendar/trips/0/return")]
    [InlineData("calendar/trips/0/return", "\"2026-03-15T07:30\"", "#/calendar/trips/0/return")]
    [InlineData("calendar/trips/0/distanceKm", "0", "#/calendar/trips/0/distanceKm")]
    [InlineData("calendar/trips/0/distanceKm", "3000.1", "#/calendar/trips/0/distanceKm")]
    [InlineData("calendar/trips/0/exceptDates", "[]", "#/calendar/trips/0/exceptDates")]
    [InlineData("options", "{\"gridMinutes\":10}", "#/options/gridMinutes")]
    [InlineData("options", "{\"gridMinutes\":15.0000001}", "#/options/gridMinutes")]
    public void Request_ThatContradictsItself_IsRefused(string path, string value, string pointer) =>
        Assert.Equal(pointer, RequestText.Schedule().Set(path, value).OnlyFault().Pointer);

    [Fact]
    public void Target_AboveTheExtendedLimit_IsRefused() => Assert.Contains(
        "extendedLimit, which is 0.9",
        RequestText.Schedule().Set("vehicle/extendedLimit", "0.9").Set("calendar/trips/0/targetStateOfCharge", "0.95").OnlyFault().Rule,
        StringComparison.Ordinal);

    [Fact]
    public void Trips_Overlapping_AreNamedBoth()
    {
        var fault = RequestText.Schedule().Set("calendar/trips", """
            [
              { "departure": "2026-01-16T08:00", "return": "2026-01-16T18:00", "distanceKm": 10 },
              { "departure": "2026-01-15T08:00", "return": "2026-01-17T18:00", "distanceKm": 10 },
              { "departure": "2026-01-17T18:00", "return": "2026-01-17T19:00", "distanceKm": 10 }
            ]
            """).OnlyFault();
        Assert.Equal("#/calendar/trips/0/departure", fault.Pointer);
        Assert.Contains("#/calendar/trips/1", fault.Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void Trip_Recurring_HasItsInstancesWithoutTheExceptDates()
    {
        var request = RequestText.Schedule()
            .Set("calendar/trips/0/recurrence", "\"FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR\"")
            .Set("calendar/trips/0/exceptDates", "[\"2026-01-19\"]")
            .Good();

        // 15 January 2026 is a Thursday; the 19th, a Monday, is left out.
        Assert.Equal(
            [15, 16, 20, 21, 22, 23],
            request.Cars[0].Calendar.Trips.Select(t => t.Departure.InZone(request.Zone.Zone).Day).Take(6));
    }

    [Fact]
    public void Trips_RecurringByTheThousand_AreReadOrRefusedWithinBounds()
    {
        var before = GC.GetAllocatedBytesForCurrentThread();
        const string trip = """{ "departure": "1970-01-02T07:30", "return": "1970-01-02T08:00", "distanceKm": 1, "recurrence": "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=29" }""";
        var faults = RequestText.Schedule().Set("calendar/trips", $"[{string.Join(',', Enumerable.Repeat(trip, 2000))}]").Read().Faults;
        var daily = trip.Replace("YEARLY;BYMONTH=2;BYMONTHDAY=29", "DAILY", StringComparison.Ordinal);
        Assert.Equal("#/calendar/trips", RequestText.Schedule().Set("calendar/trips", $"[{string.Join(',', Enumerable.Repeat(daily, 2000))}]").OnlyFault().Pointer);
        Assert.Empty(faults);

        // All that was ever allocated, the same on every run; 141 MiB on 28 November 2026. Every day since 1970 of 2,000 trips would be 40 million instances.
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 1, 400L * 1024 * 1024);
    }

    [Fact]
    public void Trip_WithLegsAndAStop_IsReadWithItsPower()
    {
        var request = RequestText.Schedule().Set("calendar/trips/0", """
            {
              "departure": "2026-01-15T07:30", "return": "2026-01-15T20:00",
              "legs": [
                { "distanceKm": 120, "stop": { "from": "2026-01-15T09:00", "until": "2026-01-15T17:00", "chargingPowerKw": 7.4, "pricePerKwh": 0.3 } },
                { "distanceMi": 75 }
              ]
            }
            """).Good();
        var trip = Assert.Single(request.Cars[0].Calendar.Trips);
        Assert.Equal(120 + (75 * 1.609344), trip.Distance.Kilometres, 9);
        Assert.Equal(7.4, trip.Legs[0].Stop!.ChargingPower.Kilowatts);
        Assert.Equal(0.3m, trip.Legs[0].Stop!.PricePerKwh);
        Assert.Equal(trip.Return, trip.Legs[1].End);
    }

    [Theory]
    [InlineData("""[{ "distanceKm": 10 }, { "distanceKm": 10 }]""", "#/calendar/trips/0/legs/0/stop")]
    [InlineData("""[{ "distanceKm": 10, "stop": { "from": "2026-01-15T09:00", "until": "2026-01-15T10:00" } }]""", "#/calendar/trips/0/legs/0/stop")]
    [InlineData("""[{ "distanceKm": 10, "stop": { "from": "2026-01-15T09:00", "until": "2026-01-15T09:00" } }, { "distanceKm": 54 }]""", "#/calendar/trips/0/legs/0/stop/until")]
    [InlineData("""[{ "distanceKm": 10, "stop": { "from": "2026-01-15T07:00", "until": "2026-01-15T09:00" } }, { "distanceKm": 54 }]""", "#/calendar/trips/0/legs/0/stop")]
    [InlineData("""[{ "distanceKm": 10, "stop": { "from": "2026-01-15T09:00", "until": "2026-01-15T18:00" } }, { "distanceKm": 54 }]""", "#/calendar/trips/0/legs/0/stop")]
    [InlineData("""[{ "distanceKm": 99 }]""", "#/calendar/trips/0/legs")]
    public void Legs_ThatContradictTheTrip_AreRefused(string legs, string pointer) => Assert.Contains(
        RequestText.Schedule().Set("calendar/trips/0/legs", legs).Read().Faults, f => f.Pointer == pointer);

    [Fact]
    public void Field_GivenTwice_IsNamed()
    {
        var text = RequestText.Schedule().ToJsonString().Replace("\"breakerA\":40", "\"breakerA\":40,\"breakerA\":50", StringComparison.Ordinal);
        var fault = Assert.Single(RequestText.Read(text).Faults);
        Assert.Equal("#/supply/breakerA", fault.Pointer);
        Assert.Contains("more than once", fault.Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void Pointer_OfAnOddName_IsEscaped() =>
        Assert.Equal("#/supply/a~1b~0c%20d", RequestText.Schedule().Set("supply", """{"voltageV":240,"breakerA":40,"a/b~c d":1}""").OnlyFault().Pointer);

    [Fact]
    public void Faults_ByTheThousand_AreCountedNotListed()
    {
        var hot = string.Join(',', Enumerable.Repeat("99", 5000));
        var faults = RequestText.Schedule()
            .Set("weather", $$$"""{"hourly":{"start":"2026-01-14T00:00","temperatureC":[{{{hot}}}]}}""")
            .Read().Faults;
        Assert.Equal(101, faults.Count);
        Assert.Contains("4900 further", faults[^1].Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void Consumption_PerMile_IsTheSameCar() => Assert.Equal(
        25 / 160.9344,
        RequestText.Schedule().Set("vehicle", """{"usableEnergyKwh":60,"onBoardChargerKw":11,"consumptionKwhPer100Mi":25}""").Good()
            .Cars[0].Vehicle.Consumption.ReferenceKwhPerKm,
        12);

    [Fact]
    public void Question_OfARequest_ReachesTheSecondDeparture()
    {
        var request = RequestText.Schedule()
            .Set("calendar/trips", """
                [
                  { "departure": "2026-01-15T07:30", "return": "2026-01-15T18:00", "distanceKm": 64 },
                  { "departure": "2026-01-25T07:30", "return": "2026-01-25T18:00", "distanceKm": 64 }
                ]
                """)
            .Set("options", """{"horizonDays":1}""")
            .Good();
        Assert.Equal(request.Cars[0].Calendar.Trips[1].Departure, ScheduleQuestion.Of(request).Case.Cars[0].Case.End);
    }

    [Fact]
    public void Question_WithAHouseLoad_HasTheSamePricesWhereThePlanHasNoBlocks()
    {
        var without = ScheduleQuestion.Of(RequestText.Schedule().Good()).Case.Cars[0].Case.Prices;
        var with = ScheduleQuestion.Of(RequestText.Schedule().Set("houseLoad", """{"annualKwh":9000}""").Good()).Case.Cars[0].Case.Prices;
        // What one kWh less is worth differs: with a house it saves import.
        Assert.Equal(without.Spans.Select(s => (s.Start, s.ImportPerKwh, s.Period)), with.Spans.Select(s => (s.Start, s.ImportPerKwh, s.Period)));
    }

    [Fact]
    public void Distance_InEitherUnit_MayBeThreeThousandKilometres() =>
        Assert.True(1864 * Distance.KilometresPerMile <= TripReader.MostKm);
}
