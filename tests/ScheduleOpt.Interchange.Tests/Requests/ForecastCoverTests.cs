using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Tests.Requests;

/// <summary>Hourly temperatures that do not cover the time planned are answered with a warning that is true, never with a refusal.</summary>
public sealed class ForecastCoverTests
{
    // Plugged in on 14 January at 17:30, planned for seven days.
    private const string Planned = "2026-01-14T17:30:00-06:00";

    [Theory]
    [InlineData("2026-06-01T00:00", "weather/hourly begins at 2026-06-01T00:00:00-05:00, after the time planned, " + Planned)]
    [InlineData("2025-07-01T00:00", "weather/hourly ends at 2025-07-03T00:00:00-05:00, before the time planned, " + Planned)]
    public void Forecast_OfOtherDays_IsItsColdestHourThroughout(string start, string begins)
    {
        var request = Hourly(start, [.. Enumerable.Range(0, 48).Select(h => h == 5 ? -11.5 : 20.0)]).Good();
        var warning = Assert.Single(request.Warnings);
        Assert.StartsWith(begins, warning, StringComparison.Ordinal);
        Assert.Contains("Its coldest hour, -11.5 degC, is taken to hold throughout", warning, StringComparison.Ordinal);
        var question = ScheduleQuestion.HouseholdOf(request).Cars[0].Case;
        Assert.Equal(-11.5, question.Temperatures.At(question.Start));
        Assert.Equal(-11.5, question.Temperatures.At(question.End));

        // The answer has no second sentence about it.
        Assert.DoesNotContain(NightPlanner.Plan(ScheduleQuestion.Of(request)).Warnings, w => w.Contains("forecast", StringComparison.Ordinal));
    }

    [Fact]
    public void Forecast_OfOtherDaysInMiles_SaysFahrenheit() => Assert.Contains(
        "Its coldest hour, 14 degF,",
        Assert.Single(Hourly("2026-06-01T00:00", [-10, 20]).Set("options", """{"unit":"mi"}""").Good().Warnings),
        StringComparison.Ordinal);

    [Theory]
    [InlineData("2026-01-14T00:00", 48, 6)]
    [InlineData("2026-01-16T00:00", 48, 5)]
    [InlineData("2026-01-16T00:00", 1000, 5)]
    [InlineData("2026-01-14T17:00", 1, 5)]
    public void Forecast_OfAPart_HasItsNearestValueOutside(string start, int hours, double first)
    {
        var request = Hourly(start, [.. Enumerable.Range(0, hours).Select(h => 5.0 + (h % 2))]).Good();
        var warning = Assert.Single(request.Warnings);
        Assert.StartsWith($"weather/hourly does not cover the time planned, {Planned} to ", warning, StringComparison.Ordinal);
        Assert.EndsWith("; outside it the nearest value is taken to hold.", warning, StringComparison.Ordinal);
        var temperatures = ScheduleQuestion.HouseholdOf(request).Cars[0].Case.Temperatures;
        Assert.Equal(first, temperatures.At(request.Span.Start));
        Assert.Equal(5.0 + ((hours - 1) % 2), temperatures.At(request.Span.End + Duration.FromDays(60)));
    }

    [Fact]
    public void Forecast_OfTheWholeTime_HasNoWarning()
    {
        Assert.Empty(Hourly("2026-01-14T17:00", [.. Enumerable.Repeat(5.0, 240)]).Good().Warnings);
        Assert.Empty(RequestText.Schedule().Good().Warnings);
    }

    [Fact]
    public void Comparison_OfOneHour_IsRefused()
    {
        var request = Reports.ReportRequest.Json();
        request["weather"] = System.Text.Json.Nodes.JsonNode.Parse("""{"hourly":{"start":"2026-01-01T00:00","temperatureC":[5]}}""");
        Assert.Contains("Must cover the whole of 2026", Assert.Single(Reports.ReportRequest.Faults(request)).Rule, StringComparison.Ordinal);
    }

    private static System.Text.Json.Nodes.JsonObject Hourly(string start, double[] celsius) => RequestText.Schedule().Set(
        "weather",
        $$$"""{"hourly":{"start":"{{{start}}}","temperatureC":[{{{string.Join(',', celsius.Select(c => c.ToString(System.Globalization.CultureInfo.InvariantCulture)))}}}]}}""");
}
