using System.Text;
using System.Text.Json;
using ScheduleOpt.Interchange.Answers;

namespace ScheduleOpt.Interchange.Tests.Answers;

/// <summary>Numbers of an answer, as they are written.</summary>
public sealed class RoundedNumberTests
{
    [Theory]
    [InlineData(0.12345, 4, "0.1235")]
    [InlineData(-0.5, 0, "-1")]
    [InlineData(-0.00001, 3, "0")]
    [InlineData(7e28, 3, "70000000000000000000000000000")]
    public void Number_WithinADecimal_IsRoundedHalfAwayFromZero(double number, int digits, string written) => Assert.Equal(written, Written(number, digits));

    // Above 2^96, which a decimal holds at most, 79,228,162,514,264,337,593,543,950,336.
    [Theory]
    [InlineData(8e28)]
    [InlineData(-1e160)]
    [InlineData(double.MaxValue)]
    public void Number_BeyondADecimal_IsWrittenAsItIs(double number) => Assert.Equal(number, JsonElement.Parse(Written(number, 5)).GetDouble());

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Number_ThatIsNone_IsNull(double number) => Assert.Equal("null", Written(number, 5));

    private static string Written(double number, int digits) =>
        JsonElement.Parse(Encoding.UTF8.GetString(AnswerJson.Write(json => json.WriteRounded("n", number, digits)))).GetProperty("n").GetRawText();
}
