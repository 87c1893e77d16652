using System.Text;
using System.Text.Json.Nodes;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Tests.Requests;

/// <summary>The rule of <c>tariffs/README.md</c>: handed on at the end of a billing period, the next bill continues as if the series had been one.</summary>
public sealed class CarriedStateTests
{
    private const int Hours = 31 * 24;

    [Theory]
    [InlineData("model-county-peak-aware", "2026-07-01T00:00", "2026-08-01T00:00")]
    [InlineData("specimen-light-baseline-home", "2026-07-01T00:00", "2026-08-01T00:00")]
    [InlineData("model-county-solar-home", "2026-07-01T00:00", "2026-08-01T00:00")]
    public void Bill_OfTheSecondMonthWithTheStateOfTheFirst_IsThatOfBothAtOnce(string plan, string july, string august)
    {
        var random = new Random(20260701);
        var import = Enumerable.Range(0, 2 * Hours).Select(_ => Math.Round(random.NextDouble() * 2, 3)).ToArray();
        var export = Enumerable.Range(0, 2 * Hours).Select(h => h % 24 is > 9 and < 16 ? Math.Round(random.NextDouble() * 12, 3) : 0).ToArray();
        var whole = Answer(Request(plan, july, import, export));
        var first = Answer(Request(plan, july, import[..Hours], export[..Hours]));
        var request = Request(plan, august, import[Hours..], export[Hours..]);
        request["carriedState"] = first["carriedState"]!.DeepClone();
        var second = Answer(request);

        Assert.Equal(whole["periods"]![0]!.ToJsonString(), first["periods"]![0]!.ToJsonString());
        Assert.Equal(whole["periods"]![1]!.ToJsonString(), second["periods"]![0]!.ToJsonString());
        Assert.Equal(whole["carriedState"]!.ToJsonString(), second["carriedState"]!.ToJsonString());

        // The state matters: without it the second month is another bill.
        request.Remove("carriedState");
        Assert.NotEqual(second.ToJsonString(), Answer(request).ToJsonString());
    }

    private static JsonObject Request(string plan, string start, double[] import, double[] export)
    {
        JsonObject Series(string name, double[] values) => new()
        {
            ["start"] = start,
            ["intervalMinutes"] = 60,
            [name] = new JsonArray([.. values.Select(v => (JsonNode)JsonValue.Create(v))]),
        };
        var request = new JsonObject
        {
            ["ratePlan"] = plan,
            ["series"] = Series("energyKwh", import),
            ["export"] = Series("energyKwh", export),
        };
        if (plan == "model-county-peak-aware")
        {
            // The baseline of 4 August reaches back into July.
            request["events"] = JsonNode.Parse("""{"saving hours":[{"from":"2026-08-04T17:00","to":"2026-08-04T20:00"}],"critical peak":[{"from":"2026-08-11T15:00","to":"2026-08-11T18:00"}]}""");
        }
        else if (plan == "model-county-solar-home")
        {
            request["prices"] = new JsonObject { ["day-ahead"] = Series("pricePerKwh", [.. import.Select(v => Math.Round((v - 0.3) / 10, 4))]) };
        }

        return request;
    }

    private static JsonNode Answer(JsonObject request)
    {
        var read = BillRequestReader.Read(JsonText.Read(request.ToJsonString()).Value);
        Assert.True(read.IsRead, string.Join("; ", read.Faults));
        return JsonNode.Parse(Encoding.UTF8.GetString(BillAnswerWriter.Write(read.Value, read.Value.Bill())))!;
    }
}
