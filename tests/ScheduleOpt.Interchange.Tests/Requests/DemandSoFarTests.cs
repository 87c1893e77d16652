namespace ScheduleOpt.Interchange.Tests.Requests;

public class DemandSoFarTests
{
    private const string Plan = "\"model-county-peak-aware\"";

    [Fact]
    public void DemandSoFar_OfAChargeOfThePlan_IsRead()
    {
        var request = RequestText.Schedule().Set("ratePlan", Plan).Set("options", """{ "demandSoFarKw": { "Evening demand": 5.5 } }""").Good();

        Assert.Equal(5.5m, request.Options.DemandSoFarKw["Evening demand"]);
    }

    [Theory]
    [InlineData("""{ "Another": 5.5 }""", "#/options/demandSoFarKw/Another")]
    [InlineData("""{ "Evening demand": -1 }""", "#/options/demandSoFarKw/Evening%20demand")]
    [InlineData("""{ "Evening demand": "5" }""", "#/options/demandSoFarKw/Evening%20demand")]
    [InlineData("[5.5]", "#/options/demandSoFarKw")]
    public void DemandSoFar_Faulty_NamesTheField(string given, string pointer)
    {
        var fault = RequestText.Schedule().Set("ratePlan", Plan).Set("options", $$"""{ "demandSoFarKw": {{given}} }""").OnlyFault();

        Assert.Equal(pointer, fault.Pointer);
    }

    [Fact]
    public void DemandSoFar_OnAPlanWithoutDemandCharge_IsRefused()
    {
        var fault = RequestText.Schedule().Set("options", """{ "demandSoFarKw": { "Evening demand": 5.5 } }""").OnlyFault();

        Assert.Equal("#/options/demandSoFarKw", fault.Pointer);
        Assert.Contains("no demand charge", fault.Rule, StringComparison.Ordinal);
    }
}
