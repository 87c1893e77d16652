using System.Text.Json.Nodes;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Interchange.RatePlans.Import;
using ScheduleOpt.Interchange.Tests.RatePlanImport;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

public sealed class DocumentYamlTests
{
    public static TheoryData<string> Ids => [.. RatePlanLibrary.Ids];

    [Theory]
    [MemberData(nameof(Ids))]
    public void Yaml_OfEveryPlan_IsReadAsTheSameDocument(string id)
    {
        var json = RatePlanLibrary.FindJson(id)!;
        AssertSame((JsonObject)JsonNode.Parse(json)!);
    }

    [Fact]
    public void Yaml_OfAnImportedRecord_IsReadAsTheSameDocument()
    {
        var options = new RateImportOptions { Zone = NodaTime.DateTimeZoneProviders.Tzdb["America/Chicago"] };
        AssertSame(RateDatabaseImport.Read(Records.Rich().ToJsonString(), options).Value.Document);
    }

    [Theory]
    [InlineData("true")]
    [InlineData("12")]
    [InlineData("2026-01-01")]
    [InlineData("a: b")]
    [InlineData("a #b")]
    [InlineData("- x")]
    [InlineData("*a")]
    [InlineData("\"q\" \\ \n \u00e9 \ud83d\udd0c")]
    [InlineData("ends ")]
    [InlineData("a:")]
    [InlineData("no")]
    [InlineData("null")]
    [InlineData("~")]
    public void Yaml_OfATextThatYamlCouldMistake_KeepsIt(string name) =>
        AssertSame(new JsonObject { ["name"] = name, [name] = new JsonArray(name, new JsonObject { ["x"] = name }) });

    private static void AssertSame(JsonObject document) =>
        Assert.True(
            JsonNode.DeepEquals(document, JsonNode.Parse(RatePlanDocument.ToJson(DocumentYaml.Write(document)))),
            DocumentYaml.Write(document));
}
