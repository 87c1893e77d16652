using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace ScheduleOpt.Service.Tests.Bills;

/// <summary>Bills with what stands beside the rate plan: choices, prices, export, events, carried state. The plans are invented; figures are worked by hand.</summary>
public sealed class BesideThePlanTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Fact]
    public async Task Bill_WithExportPricesAndABank_IsThePencilsFigure()
    {
        // 20 June 2026 is a Saturday: all base. Netted hour by hour 11.6 kWh in, 18.5 kWh out.
        // Customer 11.00 / 30 = 0.37; base 11.6 x 0.124 = 1.44; day-ahead correction, sum of use x (price / 10 - 0.004): 0.02;
        // avoided cost 18.5 x 0.051 = 0.94 off; tax 4 % of 1.83 = 0.07. The bank of 3.20 offsets 1.44 + 0.02 + 0.07 = 1.53, and 0.94 goes in:
        // a line of 0.94 - 1.53 = -0.59, and 2.61 are left.
        var answer = await Answer(Requests.SolarBill());
        Assert.Equal("0.37", Total(answer));
        Assert.Equal("2.61", answer.GetProperty("carriedState").GetProperty("creditBank").GetString());
        Assert.Equal("0.02", Amount(answer, "Day-ahead correction"));
        Assert.Equal("-0.94", Amount(answer, "Avoided cost"));
    }

    [Fact]
    public async Task Bill_WithAChoiceAnEventAndAPastPeak_IsThePencilsFigure()
    {
        // Critical peak 15:00 to 19:00: 0.7 + 1.0 + 1.4 + 1.6 = 4.7 kWh at 0.85: 4.00; the other 15.2 kWh at 0.061: 0.93.
        // Evening demand: 1.6 kW metered, 60 % of June's 4.2 kW is 2.52, billed 2.5 kW at 6.20: 15.50. Basic 0.32; credits 0.13 + 0.02 + 0.03 + 0.02.
        // 20.55 and 2 % of it, 0.41.
        var answer = await Answer(Requests.PeakBill());
        Assert.Equal("20.96", Total(answer));
        Assert.Equal("15.5", Amount(answer, "Evening demand"));
        Assert.Equal("fitted", answer.GetProperty("choices").GetProperty("demand control").GetString());
        Assert.Contains(answer.GetProperty("carriedState").GetProperty("peaks").EnumerateArray(), p =>
            p.GetProperty("charge").GetString() == "Evening demand" && p.GetProperty("month").GetString() == "2026-07" && p.GetProperty("kw").GetString() == "1.6");
    }

    [Fact]
    public async Task Bill_WithoutAChoice_TakesThePlansDefaultAndSaysSo()
    {
        var request = Requests.PeakBill();
        request["ratePlan"] = "model-county-peak-aware";
        var answer = await Answer(request);
        Assert.Equal("none", answer.GetProperty("choices").GetProperty("demand control").GetString());
        Assert.Contains(answer.GetProperty("warnings").EnumerateArray(), w => w.GetString()!.Contains("demand control is not chosen", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Bill_OfADocumentWithChoices_IsThatOfTheSamePlanById()
    {
        var request = Requests.PeakBill();
        var byId = Total(await Answer(request));
        request["ratePlan"] = new JsonObject
        {
            ["document"] = JsonNode.Parse(await service.CreateClient().GetStringAsync("/v1/rate-plans/model-county-peak-aware")),
            ["label"] = "ours",
            ["choices"] = new JsonObject { ["demand control"] = "fitted" },
        };
        var answer = await Answer(request);
        Assert.Equal(byId, Total(answer));
        Assert.Equal("ours", answer.GetProperty("ratePlan").GetString());
    }

    [Fact]
    public async Task Bill_OfADayOnWhichTheClockIsSetBack_NeedsTwentyFivePrices()
    {
        var request = AutumnDay(25);
        var whole = await Answer(request);
        request = AutumnDay(24);
        var error = Assert.Single((await Problem(request)).GetProperty("errors").EnumerateArray());
        Assert.Equal("#/prices/day-ahead/pricePerKwh", error.GetProperty("pointer").GetString());
        Assert.Contains("begins at 2026-11-01T23:00:00-05:00", error.GetProperty("detail").GetString(), StringComparison.Ordinal);

        // 25 kWh on a Sunday, at 0.124 and 0.1 x 0.08 - 0.004: 3.10 and 0.10.
        Assert.Equal("3.1", Amount(whole, "Base"));
        Assert.Equal("0.1", Amount(whole, "Day-ahead correction"));
    }

    [Fact]
    public async Task Bill_WithPricesAsTextsOrNumbers_HasEqualBytes()
    {
        var request = Requests.SolarBill();
        var list = request["prices"]!["day-ahead"]!["pricePerKwh"]!.AsArray();
        request["prices"]!["day-ahead"]!["pricePerKwh"] = new JsonArray([.. list.Select(p => (JsonNode)JsonValue.Create(p!.ToString()))]);
        Assert.Equal((await Answer(Requests.SolarBill())).GetRawText(), (await Answer(request)).GetRawText());
        Assert.Equal((await Answer(request)).GetRawText(), (await Answer(request)).GetRawText());
    }

    [Theory]
    [InlineData("ratePlan", """{"id":"model-county-peak-aware","choices":{"heating":"gas"}}""", "#/ratePlan/choices/heating", "Known: demand control")]
    [InlineData("ratePlan", """{"id":"model-county-peak-aware","choices":{"demand control":"maybe"}}""", "#/ratePlan/choices/demand%20control", "\"none\", \"fitted\"")]
    [InlineData("ratePlan", """{"id":"model-county-peak-aware","choices":[]}""", "#/ratePlan/choices", "object")]
    [InlineData("ratePlan", """{"id":"example-power-standard","choices":{"a":"b"}}""", "#/ratePlan/choices/a", "nothing to choose")]
    [InlineData("ratePlan", """{"id":"model-county-peak-aware","serviceKw":-3}""", "#/ratePlan/serviceKw", "0.1 to 10000 kW")]
    [InlineData("ratePlan", """{"id":"model-county-peak-aware","serviceKw":"ten"}""", "#/ratePlan/serviceKw", "0.1 to 10000 kW")]
    [InlineData("ratePlan", """{"choices":{"demand control":"none"}}""", "#/ratePlan", "Exactly one of id, document")]
    [InlineData("ratePlan", """{"id":"model-county-peak-aware","document":{}}""", "#/ratePlan/document", "Only one of")]
    [InlineData("ratePlan", """{"id":"model-county-peak-aware","label":"a b"}""", "#/ratePlan/label", "letters")]
    [InlineData("events", """{"critical peaks":[]}""", "#/events/critical%20peaks", "Known: critical peak, grid warning, saving hours")]
    [InlineData("events", """{"critical peak":[{"from":"2026-07-28T15:00","to":"2026-07-28T15:00"}]}""", "#/events/critical%20peak/0/to", "end after it begins")]
    [InlineData("events", """{"critical peak":[{"from":"2026-07-28T15:00"}]}""", "#/events/critical%20peak/0/to", "missing")]
    [InlineData("events", """{"critical peak":[{"date":"2026-07-28","from":"2026-07-28T15:00"}]}""", "#/events/critical%20peak/0/from", "Only one of")]
    [InlineData("events", """{"critical peak":[{"from":"2026-11-01T01:30:00-05:00","to":"2026-11-01T04:00"}]}""", "#/events/critical%20peak/0/from", "second of two hours")]
    [InlineData("carriedState", """{"peaks":[{"charge":"Noon demand","month":"2026-06","kw":1}]}""", "#/carriedState/peaks/0/charge", "Evening demand")]
    [InlineData("carriedState", """{"peaks":[{"charge":"Evening demand","month":"2026-13","kw":1}]}""", "#/carriedState/peaks/0/month", "billing month")]
    [InlineData("carriedState", """{"peaks":[{"charge":"Evening demand","month":"2026-06","kw":-1}]}""", "#/carriedState/peaks/0/kw", "0 to")]
    [InlineData("carriedState", """{"bankedEnergy":[{"energyKwh":4}]}""", "#/carriedState/bankedEnergy", "no net metering")]
    [InlineData("prices", """{"day-ahead":{"start":"2026-07-28T00:00","intervalMinutes":60,"pricePerKwh":[0.1]}}""", "#/prices/day-ahead", "follows a price series")]
    [InlineData("export", """{"start":"2026-07-28T01:00:00-04:00","intervalMinutes":60,"energyKwh":[1]}""", "#/export/start", "start of series")]
    public async Task Bill_WithAFaultBesideThePlan_NamesFieldAndRule(string field, string value, string pointer, string rule)
    {
        var request = Requests.PeakBill();
        request[field] = JsonNode.Parse(value);
        Assert.Contains((await Problem(request)).GetProperty("errors").EnumerateArray(), e =>
            e.GetProperty("pointer").GetString() == pointer && e.GetProperty("detail").GetString()!.Contains(rule, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Bill_OnAPlanWithHourlyPricesAndNone_NamesEverySeriesToAddAndAllOtherFaults()
    {
        var request = Requests.SolarBill();
        request["ratePlan"] = "model-county-subscription";
        request.Remove("prices");
        request["carriedState"] = new JsonObject { ["creditBank"] = -1 };
        request["export"]!["energyKwh"]!.AsArray().RemoveAt(0);
        var pointers = (await Problem(request)).GetProperty("errors").EnumerateArray().Select(e => e.GetProperty("pointer").GetString()).Order();
        Assert.Equal(["#/carriedState/creditBank", "#/export/energyKwh", "#/prices/day-ahead", "#/prices/real-time"], pointers);
    }

    [Fact]
    public async Task Bill_WithTooMany_IsRefused()
    {
        var request = Requests.PeakBill();
        var one = """{"date":"2026-07-28"}""";
        request["events"] = JsonNode.Parse($$"""{"critical peak":[{{string.Join(',', Enumerable.Repeat(one, 501))}}]}""");
        request["carriedState"] = JsonNode.Parse($$"""{"peaks":[{{string.Join(',', Enumerable.Repeat("0", 2001))}}]}""");
        var pointers = (await Problem(request)).GetProperty("errors").EnumerateArray().Select(e => e.GetProperty("pointer").GetString()).Order();
        Assert.Equal(["#/carriedState/peaks", "#/events/critical%20peak"], pointers);
    }

    [Fact]
    public async Task Bill_WhereThePlansRuleFillsMissingPrices_SaysHowMany()
    {
        // day-ahead: the latest earlier price; real-time: the day before. Both begin a day early and end at noon.
        var request = Requests.SolarBill();
        request["ratePlan"] = new JsonObject { ["id"] = "model-county-subscription", ["serviceKw"] = "7.2" };
        request.Remove("carriedState");
        var series = new JsonObject
        {
            ["start"] = "2026-06-19T00:00",
            ["intervalMinutes"] = 60,
            ["pricePerKwh"] = new JsonArray([.. Enumerable.Repeat(0, 36).Select(_ => (JsonNode)JsonValue.Create(0.05))]),
        };
        request["prices"] = new JsonObject { ["day-ahead"] = series, ["real-time"] = series.DeepClone() };
        var answer = await Answer(request);

        // Connection: 7.2 kW x 0.15 = 1.08.
        Assert.Equal("1.08", Amount(answer, "Connection"));
        var warnings = answer.GetProperty("warnings").EnumerateArray().Select(w => w.GetString()!).ToArray();
        Assert.Contains(warnings, w => w.Contains("day-ahead has no price for 12 intervals, the first at 2026-06-20T12:00:00-04:00", StringComparison.Ordinal));
        Assert.Contains(warnings, w => w.Contains("real-time has no price for 12 intervals", StringComparison.Ordinal));
    }

    private static JsonObject AutumnDay(int prices) => new()
    {
        ["ratePlan"] = "model-county-solar-home",
        ["series"] = new JsonObject
        {
            ["start"] = "2026-11-01T00:00",
            ["intervalMinutes"] = 60,
            ["energyKwh"] = new JsonArray([.. Enumerable.Repeat(0, 25).Select(_ => (JsonNode)1)]),
        },
        ["prices"] = new JsonObject
        {
            ["day-ahead"] = new JsonObject
            {
                ["start"] = "2026-11-01T00:00",
                ["intervalMinutes"] = 60,
                ["pricePerKwh"] = new JsonArray([.. Enumerable.Repeat(0, prices).Select(_ => (JsonNode)0.08)]),
            },
        },
    };

    private static string? Total(JsonElement answer) => answer.GetProperty("total").GetProperty("amount").GetString();

    private static string? Amount(JsonElement answer, string line) => answer.GetProperty("periods")[0].GetProperty("lines").EnumerateArray()
        .Single(l => l.GetProperty("description").GetString() == line).GetProperty("amount").GetString();

    private async Task<JsonElement> Problem(JsonObject request) => await ServiceApplication.ProblemOf(
        await service.CreateClient().PostAsync("/v1/bills", Requests.Json(request)), HttpStatusCode.UnprocessableEntity);

    private async Task<JsonElement> Answer(JsonObject request)
    {
        var response = await service.CreateClient().PostAsync("/v1/bills", Requests.Json(request));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        return JsonElement.Parse(text);
    }
}
