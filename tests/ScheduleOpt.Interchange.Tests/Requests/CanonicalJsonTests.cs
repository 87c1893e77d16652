using System.Text.Json;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Tests.Requests;

public sealed class CanonicalJsonTests
{
    // RFC 8785, section 3.2.2, with its canonical form from section 3.2.3.
    [Fact]
    public void Text_OfTheStandardsExample_IsTheStandards()
    {
        const string Given = """
            {
              "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
              "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
              "literals": [null, true, false]
            }
            """;
        const string Canonical =
            """{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}""";
        Assert.Equal(Canonical, CanonicalJson.TextOf(JsonElement.Parse(Given)));
    }

    // RFC 8785, appendix B.
    [Theory]
    [InlineData(0x0000000000000000, "0")]
    [InlineData(unchecked((long)0x8000000000000000), "0")]
    [InlineData(0x0000000000000001, "5e-324")]
    [InlineData(0x7fefffffffffffff, "1.7976931348623157e+308")]
    [InlineData(0x4340000000000000, "9007199254740992")]
    [InlineData(unchecked((long)0xc340000000000000), "-9007199254740992")]
    [InlineData(0x4430000000000000, "295147905179352830000")]
    [InlineData(0x44b52d02c7e14af5, "9.999999999999997e+22")]
    [InlineData(0x44b52d02c7e14af6, "1e+23")]
    [InlineData(0x444b1ae4d6e2ef4e, "999999999999999700000")]
    [InlineData(0x444b1ae4d6e2ef50, "1e+21")]
    [InlineData(0x3eb0c6f7a0b5ed8c, "9.999999999999997e-7")]
    [InlineData(0x3eb0c6f7a0b5ed8d, "0.000001")]
    [InlineData(0x41b3de4355555553, "333333333.3333332")]
    public void Number_OfTheStandardsSamples_IsTheStandards(long bits, string text) =>
        Assert.Equal(text, CanonicalJson.NumberText(BitConverter.Int64BitsToDouble(bits)));
}
