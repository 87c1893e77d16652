using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Tests.Requests;

public sealed class JsonTextTests
{
    [Theory]
    [InlineData("{\"a\":1}")]
    [InlineData("\uFEFF{\"a\":1}")]
    [InlineData("  [1,\"\\ud83d\\ude97\"]\n")]
    public void Text_ThatIsJson_IsRead(string text) => Assert.True(JsonText.Read(text).IsRead);

    [Theory]
    [InlineData("{\n  \"a\": NaN\n}", "At line 2, byte 8")]
    [InlineData("{\"a\":1,}", "At line 1, byte 8")]
    [InlineData("{\"a\":01}", "At line 1, byte 7")]
    [InlineData("{\"a\":1} x", "At line 1, byte 9")]
    [InlineData("{'a':1}", "At line 1, byte 2")]
    [InlineData("{\"a\":\"\\ud800\"}", "At byte 6")]
    public void Text_ThatIsNotJson_IsRefusedWithItsPlace(string text, string place)
    {
        var fault = Assert.Single(JsonText.Read(text).Faults);
        Assert.StartsWith(place, fault.Rule, StringComparison.Ordinal);
        Assert.DoesNotContain("LineNumber", fault.Rule, StringComparison.Ordinal);
    }

    // The parser speaks of depth in both cases.
    [Theory]
    [InlineData("{", "closed")]
    [InlineData("{\"a\": [1]", "closed")]
    [InlineData("[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[", "closed")]
    [InlineData("[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[", "32 deep")]
    [InlineData("{\"a\":[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[1", "32 deep")]
    public void Text_NotClosedOrTooDeep_SaysWhich(string text, string rule)
    {
        var fault = Assert.Single(JsonText.Read(text).Faults);
        Assert.Contains(rule, fault.Rule, StringComparison.Ordinal);
        Assert.Equal(rule == "closed", !fault.Rule.Contains("deep", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("")]
    [InlineData(" \n\t ")]
    public void Text_Empty_SaysSo(string text) =>
        Assert.Contains("empty", Assert.Single(JsonText.Read(text).Faults).Rule, StringComparison.Ordinal);

    [Fact]
    public void Text_NotUtf8_SaysSo() =>
        Assert.Contains("UTF-8", Assert.Single(JsonText.Read([0x22, 0xC3, 0x28, 0x22]).Faults).Rule, StringComparison.Ordinal);

    [Theory]
    [InlineData(32, true)]
    [InlineData(33, false)]
    public void Text_Nested_IsReadToTheLimit(int depth, bool isRead) =>
        Assert.Equal(isRead, JsonText.Read(new string('[', depth) + new string(']', depth)).IsRead);
}
