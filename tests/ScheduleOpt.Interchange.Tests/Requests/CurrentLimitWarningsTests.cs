namespace ScheduleOpt.Interchange.Tests.Requests;

public sealed class CurrentLimitWarningsTests
{
    [Theory]
    [InlineData(0, true)]
    [InlineData(5.9, true)]
    [InlineData(6, false)]
    public void Limit_BelowTheLeastCurrent_IsSaidToMeanNoCharging(double amperes, bool warned)
    {
        var request = RequestText.Schedule().Set("options", FormattableString.Invariant($$"""{ "currentLimits": [ { "from": "22:00", "until": "06:00", "currentA": {{amperes}} } ] }""")).Good();
        Assert.Equal(warned, request.Warnings.Any(w => w.Contains("no charging in these hours", StringComparison.Ordinal) && w.Contains("22:00 to 06:00", StringComparison.Ordinal)));
    }
}
