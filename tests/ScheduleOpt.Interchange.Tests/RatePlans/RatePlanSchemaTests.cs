using System.Text.Json;
using Json.Schema;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

public class RatePlanSchemaTests
{
    public static TheoryData<string> SamplePlans => [.. RatePlanLibrary.Ids];

    [Theory]
    [MemberData(nameof(SamplePlans))]
    public void SamplePlan_AsJson_IsValidUnderTheSchema(string id) => Assert.True(RatePlanSchema.Accepts(RatePlanLibrary.FindJson(id)!));

    [Fact]
    public void Schema_ItsOwnReferences_PointInside()
    {
        var references = JsonDocument.Parse(RatePlanLibrary.Schema).RootElement.GetRawText().Split("\"$ref\": \"").Skip(1).Select(r => r.Split('"')[0]).ToArray();

        Assert.NotEmpty(references);
        Assert.All(references, r => Assert.StartsWith("#/$defs/", r, StringComparison.Ordinal));
    }

    [Fact]
    public void Schema_UnderTheMetaSchema_IsValid() =>
        Assert.True(MetaSchemas.Draft202012.Evaluate(JsonDocument.Parse(RatePlanLibrary.Schema).RootElement).IsValid);

    [Theory]
    [InlineData("\"metering\": \"wholeHouse\"", "\"metering\": \"house\"")]
    [InlineData("\"currency\": \"USD\"", "\"currency\": \"usd\"")]
    [InlineData("\"per\": \"month\"", "\"per\": \"week\"")]
    [InlineData("\"name\": \"Standard\"", "\"title\": \"Standard\"")]
    public void Schema_WrongField_IsInvalid(string right, string wrong)
    {
        var json = RatePlanLibrary.FindJson("example-power-standard")!;

        Assert.Contains(right, json, StringComparison.Ordinal);
        Assert.False(RatePlanSchema.Accepts(json.Replace(right, wrong, StringComparison.Ordinal)));
    }
}
