using System.Text.Json;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Tests.Requests;

namespace ScheduleOpt.Interchange.Tests.Outputs;

/// <summary>The answer's warnings say why it costs more than charging on arrival.</summary>
public sealed class DearerThanArrivalTests
{
    [Fact]
    public void Answer_ThatCostsMoreThanOnArrival_SaysWhyAmongItsWarnings()
    {
        // Cheap until 07:00, then dear; 97 % is asked for at 20:30, and the ordinary limit of 80 % holds until just before.
        var answer = Answers.To(RequestText.Schedule()
            .Set("asOf", "\"2026-01-14T21:30:00-06:00\"")
            .Set("calendar/trips", """[ { "departure": "2026-01-15T20:30", "return": "2026-01-16T06:00", "distanceKm": 40, "targetStateOfCharge": 0.97 } ]"""));
        Assert.True(answer.Cost > answer.CostOnArrival + 0.5);
        var json = JsonElement.Parse(ScheduleAnswerWriter.Write(answer));
        var why = json.GetProperty("warnings").EnumerateArray().Last().GetString();
        Assert.Equal(answer.DearerThanArrival, why);
        Assert.Contains("more than charging on arrival, which stores up to 10.2 kWh more than the ordinary limit", why, StringComparison.Ordinal);
    }

    [Fact]
    public void Answer_ThatCostsLess_SaysNothingOfIt() => Assert.DoesNotContain(
        JsonElement.Parse(ScheduleAnswerWriter.Write(Answers.To(RequestText.Schedule()))).GetProperty("warnings").EnumerateArray(),
        w => w.GetString()!.Contains("on arrival", StringComparison.Ordinal));
}
