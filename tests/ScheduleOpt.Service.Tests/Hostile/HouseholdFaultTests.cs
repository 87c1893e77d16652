using System.Net;
using System.Text.Json.Nodes;
using ScheduleOpt.Service.Documentation;

namespace ScheduleOpt.Service.Tests.Hostile;

/// <summary>Requests of a household spoilt in one field each: every one is refused, and the field is named.</summary>
public sealed class HouseholdFaultTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    /// <summary>Path, what is put there, and where the fault is found if not there.</summary>
    private static readonly (string Path, string Json, string? Pointer)[] TwoCars =
    [
        ("cars", "null", null), ("cars", "{}", null), ("cars", "[]", null), ("cars", "[1]", "cars/0"), ("cars", "[null,2]", "cars/1"),
        ("cars", "[{},{},{},{},{}]", null), ("vehicle", "{}", null), ("supply", "{}", null), ("plugIn", "{}", null), ("calendar", "{}", null),
        ("cars/0/name", "\"\"", null), ("cars/0/name", "\" \"", null), ("cars/0/name", "7", null), ("cars/0/name", "\"Small\"", "cars/1/name"),
        ("cars/0/name", "\"a\\u0000b\"", null), ("cars/0/name", "\"a\\nb\"", null), ("cars/0/name", $"\"{new string('x', 61)}\"", null),
        ("cars/0/colour", "\"blue\"", null), ("cars/0/targetStateOfCharge", "1.01", null), ("cars/0/targetStateOfCharge", "-0.1", null),
        ("cars/0/targetStateOfCharge", "\"90%\"", null), ("cars/0/outlet", "-1", null), ("cars/0/outlet", "1.5", null), ("cars/0/outlet", "1001", null),
        ("cars/0/vehicle/usableEnergyKwh", "0", null), ("cars/0/supply/breakerA", "400", null), ("cars/0/plugIn/stateOfCharge", "42", null),
        ("cars/1/plugIn/at", "\"2026-01-13T19:15\"", null), ("cars/1/plugIn/at", "\"2026-01-22T19:15\"", null), ("cars/1/plugIn/at", "\"2026-01-15T10:00\"", "cars/1/plugIn"),
        ("cars/1/calendar/trips/0/distanceKm", "-4", null), ("cars/1/calendar", "{}", null),
        ("cars/0/running", "true", null), ("cars/0/running/mostWindows", "0", null), ("cars/0/running/pause", "5", null),
        ("cars/0/previous", "[]", null), ("cars/0/previous", "{}", "cars/0/previous/windows"), ("cars/0/previous/keepUnlessCheaperBy", "\"0.05\"", null),
        ("cars/0/previous/windows", "{}", null), ("cars/0/previous/windows", "[7]", "cars/0/previous/windows/0"),
        ("sharedCircuit", "40", null), ("sharedCircuit", "{}", null), ("sharedCircuit/currentA", "40", "sharedCircuit/breakerA"),
        ("sharedCircuit/breakerA", "5", null), ("sharedCircuit/breakerA", "126", null), ("sharedCircuit/breakerA", "\"50 A\"", null),
        ("sharedCircuit/rule", "\"nec\"", null), ("sharedCircuit", """{"currentA":40,"rule":"unknown"}""", "sharedCircuit/rule"),
        ("sharedCircuit", """{"currentA":-1}""", "sharedCircuit/currentA"), ("cars/1/supply/voltageV", "120", "sharedCircuit"),
        ("importLimitKw", "0", null), ("importLimitKw", "-3", null), ("importLimitKw", "1001", null), ("importLimitKw", "\"12\"", null), ("importLimitKw", "[12]", null),
        ("solar", "3", null), ("solar", "{}", "solar/powerKw"), ("solar/start", "\"noon\"", null), ("solar/start", "\"2026-01-15T08:00:00-05:00\"", null),
        ("solar/intervalMinutes", "7", null), ("solar/intervalMinutes", "0", null), ("solar/intervalMinutes", "15.5", null), ("solar/intervalMinutes", "\"60\"", null),
        ("solar/powerKw", "[]", null), ("solar/powerKw", "2", null), ("solar/powerKw", "[1,-0.5]", "solar/powerKw/1"), ("solar/powerKw", "[1001]", "solar/powerKw/0"),
        ("solar/powerKw", "[null]", "solar/powerKw/0"), ("solar/energyKwh", "[1]", null),
        ("carbon", "60", null), ("carbon", "{}", "carbon/pricePerTonne"), ("carbon/pricePerTonne", "\"-1\"", null), ("carbon/pricePerTonne", "\"1e3\"", null),
        ("carbon/pricePerTonne", "\"sixty\"", null), ("carbon/pricePerTonne", "10001", null), ("carbon/pricePerTonne", "{\"amount\":\"60\"}", null),
        ("carbon/gramsPerKwh", "-1", null), ("carbon/gramsPerKwh", "5001", null), ("carbon/gramsPerKwh", "\"420\"", null),
        ("carbon/gramsPerKwh", "[420]", null), ("carbon/gramsPerKwh", "{}", "carbon/gramsPerKwh/start"),
        ("carbon/gramsPerKwh", """{"start":"2026-01-14T17:00","intervalMinutes":60,"gramsPerKwh":[400,5001]}""", "carbon/gramsPerKwh/gramsPerKwh/1"),
        ("carbon/tonnes", "1", null),
        ("options/previous", """{"windows":[]}""", "options/previous/windows"), ("options/previous", """{"expectedStateOfCharge":0.5}""", "options/previous/expectedStateOfCharge"),
        ("options/chargingProfile/outlet", "2", null), ("options/targetStateOfCharge", "1.2", null),
    ];

    private static readonly (string Path, string Json, string? Pointer)[] OneCar =
    [
        ("sharedCircuit", """{"currentA":40}""", null), ("options/running", "[]", null), ("options/running/adjustable", "1", null),
        ("options/running/adjustable", "\"yes\"", null), ("options/running/wholeAmperes", "null", null), ("options/running/mostWindows", "0", null),
        ("options/running/mostWindows", "97", null), ("options/running/mostWindows", "1.5", null), ("options/running/leastOnMinutes", "-1", null),
        ("options/running/leastOnMinutes", "241", null), ("options/running/leastOnMinutes", "7.5", null), ("options/running/leastOffMinutes", "\"PT15M\"", null),
        ("options/finishMarginMinutes", "-1", null), ("options/finishMarginMinutes", "241", null), ("options/finishMarginMinutes", "\"30\"", null), ("options/finishMarginMinutes", "0.5", null),
        ("options/noCharging", "{}", null), ("options/noCharging", "[\"17:00-21:00\"]", "options/noCharging/0"), ("options/noCharging", "[{}]", "options/noCharging/0/from"),
        ("options/noCharging", """[{"from":"17:00"}]""", "options/noCharging/0/until"), ("options/noCharging", """[{"from":"24:00","until":"06:00"}]""", "options/noCharging/0/from"),
        ("options/noCharging", """[{"from":"17:60","until":"21:00"}]""", "options/noCharging/0/from"), ("options/noCharging", """[{"from":"5 pm","until":"21:00"}]""", "options/noCharging/0/from"),
        ("options/noCharging", """[{"from":"7:00","until":"21:00"}]""", "options/noCharging/0/from"), ("options/noCharging", """[{"from":17,"until":"21:00"}]""", "options/noCharging/0/from"),
        ("options/noCharging", """[{"from":"17:00","until":"24:01"}]""", "options/noCharging/0/until"), ("options/noCharging", """[{"from":"17:00","until":"17:00"}]""", "options/noCharging/0/until"),
        ("options/noCharging", """[{"from":"17:00","until":"21:00","days":[]}]""", "options/noCharging/0/days"),
        ("options/noCharging", """[{"from":"17:00","until":"21:00","days":["Mon"]}]""", "options/noCharging/0/days/0"),
        ("options/noCharging", """[{"from":"17:00","until":"21:00","days":["monday","monday"]}]""", "options/noCharging/0/days/1"),
        ("options/noCharging", """[{"from":"17:00","until":"21:00","days":"monday"}]""", "options/noCharging/0/days"),
        ("options/noCharging", """[{"from":"17:00","until":"21:00","currentA":6}]""", "options/noCharging/0/currentA"),
        ("options/noCharging", $"[{string.Join(',', Enumerable.Repeat("""{"from":"17:00","until":"21:00"}""", 51))}]", null),
        ("options/currentLimits", "7", null), ("options/currentLimits", """[{"from":"22:00","until":"06:00"}]""", "options/currentLimits/0/currentA"),
        ("options/currentLimits", """[{"from":"22:00","until":"06:00","currentA":-1}]""", "options/currentLimits/0/currentA"),
        ("options/currentLimits", """[{"from":"22:00","until":"06:00","currentA":126}]""", "options/currentLimits/0/currentA"),
        ("options/currentLimits", """[{"from":"22:00","until":"06:00","currentA":16,"powerKw":3}]""", "options/currentLimits/0/powerKw"),
        ("options/warmUp", "true", null), ("options/warmUp", "{}", "options/warmUp/minutes"), ("options/warmUp", """{"minutes":4,"energyKwh":1}""", "options/warmUp/minutes"),
        ("options/warmUp", """{"minutes":121,"energyKwh":1}""", "options/warmUp/minutes"), ("options/warmUp", """{"minutes":20,"energyKwh":0}""", "options/warmUp/energyKwh"),
        ("options/warmUp", """{"minutes":20,"energyKwh":21}""", "options/warmUp/energyKwh"), ("options/warmUp", """{"minutes":20,"energyKwh":1,"sparedKwh":1.5}""", "options/warmUp/sparedKwh"),
        ("options/warmUp", """{"minutes":20,"energyKwh":1,"sparedKwh":-1}""", "options/warmUp/sparedKwh"),
        ("options/warmUp", """{"minutes":20,"energyKwh":1,"belowC":5,"belowF":41}""", "options/warmUp/belowF"),
        ("options/warmUp", """{"minutes":20,"energyKwh":1,"belowC":61}""", "options/warmUp/belowC"), ("options/warmUp", """{"minutes":20,"energyKwh":1,"belowF":-77}""", "options/warmUp/belowF"),
        ("options/batteryCare", "\"lfp\"", null), ("options/batteryCare", "{}", null), ("options/batteryCare/chemistry", "\"lto\"", null), ("options/batteryCare/chemistry", "\"LFP\"", null),
        ("options/batteryCare/pricePerKwhHour", "-0.001", null), ("options/batteryCare/pricePerKwhHour", "0.2", null),
        ("options/batteryCare", """{"chemistry":"nmc","pricePerKwhHour":0.001}""", "options/batteryCare/pricePerKwhHour"),
        ("options/previous", "[]", null), ("options/previous", "{}", "options/previous/windows"), ("options/previous", """{"windows":[],"keepUnlessCheaperBy":"-0.05"}""", "options/previous/keepUnlessCheaperBy"),
        ("options/previous", """{"windows":[],"keepUnlessCheaperBy":"five"}""", "options/previous/keepUnlessCheaperBy"),
        ("options/previous", """{"windows":[],"expectedStateOfCharge":50}""", "options/previous/expectedStateOfCharge"),
        ("options/previous", """{"windows":[{"start":"2026-01-15T01:00"}]}""", "options/previous/windows/0/end"),
        ("options/previous", """{"windows":[{"start":"2026-01-15T01:00","end":"2026-01-15T01:00"}]}""", "options/previous/windows/0/end"),
        ("options/previous", """{"windows":[{"start":"2026-01-15T01:00","end":"2026-01-15T02:00","currentA":0}]}""", "options/previous/windows/0/currentA"),
        ("options/previous", """{"windows":[{"start":"2026-01-15T01:00","end":"2026-01-15T02:00","sequence":-1}]}""", "options/previous/windows/0/sequence"),
        ("options/previous", """{"windows":[{"start":"2026-01-15T01:00","end":"2026-01-15T02:00","uid":"a\r\nb"}]}""", "options/previous/windows/0/uid"),
        ("options/previous", """{"windows":[{"start":"2026-01-15T01:00","end":"2026-01-15T03:00"},{"start":"2026-01-15T02:00","end":"2026-01-15T04:00"}]}""", "options/previous/windows/1/start"),
        ("options/previous", """{"windows":[{"start":"2026-01-15T01:00","end":"2026-01-15T02:00","uid":"a"},{"start":"2026-01-15T02:00","end":"2026-01-15T04:00","uid":"a"}]}""", "options/previous/windows/1/uid"),
        ("options/explain", "\"no\"", null), ("options/explain", "0", null),
        ("options/chargingProfile", "\"1.6\"", null), ("options/chargingProfile", "{}", "options/chargingProfile/version"), ("options/chargingProfile/version", "\"1.5\"", null),
        ("options/chargingProfile/version", "1.6", null), ("options/chargingProfile", """{"version":"1.6","unit":"kW"}""", "options/chargingProfile/unit"),
        ("options/chargingProfile", """{"version":"1.6","outlet":-1}""", "options/chargingProfile/outlet"), ("options/chargingProfile", """{"version":"1.6","stackLevel":1}""", "options/chargingProfile/stackLevel"),
    ];

    [Fact]
    public async Task Request_SpoiltInOneField_IsRefusedWithTheFieldNamed()
    {
        using var client = service.CreateClient();
        var spoilt = TwoCars.Select(s => (Example: "schedule-two-cars", s)).Concat(OneCar.Select(s => (Example: "schedule", s))).ToArray();
        Assert.True(spoilt.Length >= 150);
        foreach (var (example, (path, json, pointer)) in spoilt)
        {
            var body = ApiSchemas.Example(example);
            Requests.Set(body, path, JsonNode.Parse(json));
            var response = await client.PostAsync("/v1/schedules", Requests.Json(body));
            var problem = await ServiceApplication.ProblemOf(response, HttpStatusCode.UnprocessableEntity);
            var pointers = problem.GetProperty("errors").EnumerateArray().Select(e => e.GetProperty("pointer").GetString()).ToArray();
            Assert.True(pointers.Contains($"#/{pointer ?? path}"), $"{path} = {json}: {string.Join(", ", pointers)}");
        }
    }

    [Fact]
    public async Task Request_SpoiltInManyFields_NamesAllAtOnce()
    {
        var body = ApiSchemas.Example("schedule-two-cars");
        foreach (var path in new[] { "cars/0/name", "cars/1/outlet", "importLimitKw", "solar/intervalMinutes", "carbon/gramsPerKwh", "options/noCharging", "options/running/mostWindows" })
        {
            Requests.Set(body, path, JsonNode.Parse("-1.5"));
        }

        var problem = await ServiceApplication.ProblemOf(await service.CreateClient().PostAsync("/v1/schedules", Requests.Json(body)), HttpStatusCode.UnprocessableEntity);
        Assert.Equal(7, problem.GetProperty("errors").GetArrayLength());
    }
}
