using NodaTime;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

// Documents that someone might really send: valid ones with a slip in them. Each must come back as a plan that can be used, or with faults.
public class RatePlanMutationTests
{
    private const int PerPlan = 60;

    private static readonly string[] OddValues =
    [
        "", "~", "null", "true", "-1", "0", "1e400", "-1e-400", "99999999999999999999999999999999", "NaN", "\"\"", "[]", "{}", "[1]", "{ a: 1 }", "'",
        "24:00", "23:59", "00:00", "02-29", "02-30", "2026-02-30", "9999-12-31", "-9998-01-01", "Europe/London", "monday", "0.1", "x y", "\u0000", "\ud83d\ude97",
    ];

    public static TheoryData<string> SamplePlans => [.. RatePlanLibrary.Ids];

    [Theory]
    [MemberData(nameof(SamplePlans))]
    public void MutatedDocument_Json_IsAPlanOrAFault(string id) => Try(id, RatePlanLibrary.FindJson(id)!);

    [Theory]
    [MemberData(nameof(SamplePlans))]
    public void MutatedDocument_Yaml_IsAPlanOrAFault(string id) => Try(id, Yaml(RatePlanLibrary.FindJson(id)!));

    private static void Try(string id, string valid)
    {
        Assert.True(RatePlanDocument.Read(valid, id).IsRead);
        // A seed of its own for each document, the same in every run.
        var random = new Random(id.Length + (valid.Length * 31));
        int plans = 0, refused = 0;
        for (var i = 0; i < PerPlan; i++)
        {
            var mutated = Mutated(valid, random);
            var reading = RatePlanDocument.Read(mutated, id);
            if (reading.IsRead)
            {
                plans++;
                Use(reading.Value);
                Assert.True(RatePlanSchema.Accepts(RatePlanDocument.ToJson(mutated)), mutated);
            }
            else
            {
                refused++;
                Assert.All(reading.Faults, f => Assert.StartsWith("#", f.Pointer, StringComparison.Ordinal));
                Assert.All(reading.Faults, f => Assert.NotEmpty(f.Rule));
            }
        }

        // Both outcomes occur, or the mutations would prove little.
        Assert.True(plans > 0 && refused > 0, $"{plans} plans, {refused} refused");
    }

    private static void Use(RatePlan plan)
    {
        var start = Instant.FromUtc(2026, 3, 6, 5, 0);
        var load = MeteredSeries.FromKilowattHours(start, Duration.FromHours(1), Enumerable.Repeat(1.0, 24 * 40).ToArray());
        var prices = new PriceSeries(start - Duration.FromDays(1), Duration.FromHours(1), Enumerable.Repeat((decimal?)0.1m, 24 * 42).ToArray());
        var input = new BillInput { Export = load, Prices = plan.PriceSeriesNames.ToDictionary(n => n, _ => prices) };
        Assert.NotEmpty(Biller.Bill(plan, load, input: input).Periods);
        Assert.Equal(load.End, PriceScheduleBuilder.Build(plan, load.Start, load.End, load, input: input).End);
    }

    private static string Mutated(string text, Random random)
    {
        var lines = text.Split('\n').ToList();
        var at = random.Next(lines.Count);
        switch (random.Next(8))
        {
            case 0:
                lines.RemoveAt(at);
                break;
            case 1:
                lines.Insert(random.Next(lines.Count), lines[at]);
                break;
            case 2:
                (lines[at], lines[random.Next(lines.Count)]) = (lines[random.Next(lines.Count)], lines[at]);
                break;
            case 3:
                lines[at] = " " + lines[at];
                break;
            case 4:
                return text[..random.Next(text.Length)];
            case 5:
                var c = random.Next(text.Length);
                return text[..c] + (char)random.Next(32, 127) + text[(c + 1)..];
            default:
                var colon = lines[at].IndexOf(": ", StringComparison.Ordinal);
                var end = lines[at].EndsWith(',') ? "," : "";
                lines[at] = colon < 0 ? lines[at] : lines[at][..(colon + 2)] + OddValues[random.Next(OddValues.Length)] + end;
                break;
        }

        return string.Join('\n', lines);
    }

    // Block style with one value a line, so that a mutation of a line is a mutation of a value. JSON strings are YAML strings.
    private static string Yaml(string json)
    {
        var text = new System.Text.StringBuilder();
        Write(text, System.Text.Json.JsonDocument.Parse(json).RootElement, 0);
        return text.ToString();
    }

    private static void Write(System.Text.StringBuilder text, System.Text.Json.JsonElement element, int indent)
    {
        if (element.ValueKind == System.Text.Json.JsonValueKind.Object)
        {
            foreach (var member in element.EnumerateObject())
            {
                text.Append(' ', indent).Append(member.Name).Append(": ");
                WriteChild(text, member.Value, indent);
            }
        }
        else
        {
            foreach (var item in element.EnumerateArray())
            {
                text.Append(' ', indent).Append("- ");
                WriteChild(text, item, indent);
            }
        }
    }

    private static void WriteChild(System.Text.StringBuilder text, System.Text.Json.JsonElement child, int indent)
    {
        var isEmpty = child.ValueKind == System.Text.Json.JsonValueKind.Array && child.GetArrayLength() == 0;
        if (!isEmpty && child.ValueKind is (System.Text.Json.JsonValueKind.Object or System.Text.Json.JsonValueKind.Array))
        {
            text.Append('\n');
            Write(text, child, indent + 2);
        }
        else
        {
            text.Append(child.GetRawText()).Append('\n');
        }
    }
}
