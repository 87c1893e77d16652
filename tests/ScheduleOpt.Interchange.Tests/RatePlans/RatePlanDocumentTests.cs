using System.Text;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

public class RatePlanDocumentTests
{
    private const string Valid = """
        name: Test
        utility: Test
        source: Test
        currency: USD
        timeZone: America/Chicago
        effective: { from: 2026-01-01 }
        metering: wholeHouse
        seasons:
          - { name: summer, ranges: [ { from: 06-01, to: 09-30 } ] }
          - { name: winter, ranges: [ { from: 10-01, to: 05-31 } ] }
        dayTypes:
          - { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }
          - { name: weekend, days: [saturday, sunday] }
        holidays: []
        periods: [on-peak, off-peak]
        windows:
          - { period: on-peak, dayTypes: [weekday], from: 07:00, to: 20:00 }
          - { period: off-peak, dayTypes: [weekday], from: 20:00, to: 24:00 }
          - { period: off-peak, dayTypes: [weekday], from: 00:00, to: 07:00 }
          - { period: off-peak, dayTypes: [weekend], from: 00:00, to: 24:00 }
        customerCharges:
          - { name: Basic, amount: 10, per: month }
        energyCharges:
          - { name: On-peak, periods: [on-peak], pricePerKwh: 0.2 }
          - { name: Off-peak, periods: [off-peak], pricePerKwh: 0.1 }
        rounding: { each: line, mode: halfUp }
        proration: { month: daysInMonth }
        """;

    [Fact]
    public void Document_Valid_IsRead()
    {
        var plan = RatePlanDocument.Read(Valid, "test-plan").Value;

        Assert.Equal("test-plan", plan.Id);
        Assert.Equal(["on-peak", "off-peak"], plan.Calendar.Periods);
        Assert.Equal(0.2m, plan.EnergyCharges[0].Blocks.Single().PricePerKwh);
    }

    [Fact]
    public void Document_AsJson_IsTheSamePlan()
    {
        var json = RatePlanDocument.ToJson(Valid);
        var plan = RatePlanDocument.Read(json, "test-plan").Value;

        Assert.StartsWith("{", json, StringComparison.Ordinal);
        Assert.Equal(json, RatePlanDocument.ToJson(json));
        Assert.Equal(0.1m, plan.EnergyCharges[1].Blocks.Single().PricePerKwh);
        Assert.Equal(1440, plan.Calendar.Windows[1].ToMinute);
    }

    [Theory]
    [InlineData("currency: USD", "currency: usd", "#/currency", 4)]
    [InlineData("timeZone: America/Chicago", "timeZone: Nowhere/Atall", "#/timeZone", 5)]
    [InlineData("metering: wholeHouse", "metering: house", "#/metering", 7)]
    [InlineData("from: 06-01", "from: 06-31", "#/seasons/0/ranges/0/from", 9)]
    [InlineData("pricePerKwh: 0.2", "pricePerKwh: 200", "#/energyCharges/0/pricePerKwh", 24)]
    [InlineData("pricePerKwh: 0.2", "pricePerKwh: \"0.2\"", "#/energyCharges/0/pricePerKwh", 24)]
    [InlineData("pricePerKwh: 0.2", "pricePerKwh: .nan", "#/energyCharges/0/pricePerKwh", 24)]
    [InlineData("pricePerKwh: 0.2", "price: 0.2", "#/energyCharges/0", 24)]
    [InlineData("pricePerKwh: 0.2", "pricePerKwh: 0.2, prise: 1", "#/energyCharges/0/prise", 24)]
    [InlineData("from: 07:00", "from: 7:00", "#/windows/0/from", 17)]
    [InlineData("from: 07:00", "from: 25:00", "#/windows/0/from", 17)]
    [InlineData("periods: [on-peak],", "periods: [peak],", "#/energyCharges/0/periods/0", 24)]
    [InlineData("holidays: []", "holidays: none", "#/holidays", 14)]
    [InlineData("pricePerKwh: 0.2", "until: 9999-12-31, pricePerKwh: 0.2", "#/energyCharges/0/until", 24)]
    [InlineData("name: Test", "name: \"a\\nb\"", "#/name", 1)]
    [InlineData("holidays: []", "holidays: [ { name: X, rule: full moon, dayType: weekend } ]", "#/holidays/0/rule", 14)]
    [InlineData("holidays: []", "holidays: [ { name: X, rule: easter, dayType: weekend } ]", "#/holidays/0/offsetDays", 14)]
    [InlineData("holidays: []", "holidays: [ { name: X, rule: easter, offsetDays: 1, nth: 1, dayType: weekend } ]", "#/holidays/0/nth", 14)]
    [InlineData("effective: { from: 2026-01-01 }", "effective: { from: 2026-01-01, until: 2025-01-01 }", "#/effective/until", 6)]
    [InlineData("proration: { month: daysInMonth }", "proration: { month: daysInMonth, wholeMonthDays: { from: 35, to: 20 } }", "#/proration/wholeMonthDays/to", 27)]
    public void Document_OneFieldWrong_IsOneFaultAtItsPlace(string right, string wrong, string pointer, int line)
    {
        var reading = RatePlanDocument.Read(Valid.Replace(right, wrong, StringComparison.Ordinal), "test");

        Assert.Contains(reading.Faults, f => f.Pointer == pointer && f.Line == line);
    }

    [Fact]
    public void Document_FieldMissing_SaysSo()
    {
        var reading = RatePlanDocument.Read(Valid.Replace("utility: Test\n", "", StringComparison.Ordinal), "test");

        Assert.Equal("#/utility", Assert.Single(reading.Faults).Pointer);
    }

    [Fact]
    public void Document_SeveralFaults_AreAllNamedAtOnce()
    {
        var text = Valid.Replace("USD", "dollars", StringComparison.Ordinal)
            .Replace("per: month", "per: week", StringComparison.Ordinal)
            .Replace("halfUp", "up", StringComparison.Ordinal);

        Assert.Equal(["#/currency", "#/customerCharges/0/per", "#/rounding/mode"], RatePlanDocument.Read(text, "test").Faults.Select(f => f.Pointer).Order());
    }

    [Theory]
    [InlineData("from: 20:00, to: 24:00", "from: 20:00, to: 23:00", "day type weekday", "23:00 to 24:00 is in no window")]
    [InlineData("from: 20:00, to: 24:00", "from: 19:30, to: 24:00", "day type weekday", "19:30 to 20:00 is in windows of on-peak and off-peak")]
    [InlineData("from: 20:00, to: 24:00", "from: 20:00, to: 06:00", "day type weekend", "00:00 to 06:00 is in windows of off-peak and off-peak")]
    public void Windows_GapOrOverlap_IsNamedWithSeasonDayTypeAndTime(string right, string wrong, string dayType, string what)
    {
        var faults = RatePlanDocument.Read(Valid.Replace(right, wrong, StringComparison.Ordinal), "test").Faults;

        Assert.Contains(faults, f => f.Pointer == "#/windows" && f.Value.Contains("season summer", StringComparison.Ordinal)
            && f.Value.Contains(dayType, StringComparison.Ordinal) && f.Value.Contains(what, StringComparison.Ordinal));
        Assert.Contains(faults, f => f.Value.Contains("season winter", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("to: 09-30", "to: 09-29", "#/seasons", "30 lies in none")]
    [InlineData("to: 09-30", "to: 10-01", "#/seasons", "lies in summer, winter")]
    [InlineData("[saturday, sunday]", "[saturday]", "#/dayTypes", "Sunday belongs to none")]
    [InlineData("[saturday, sunday]", "[saturday, sunday, monday]", "#/dayTypes", "Monday belongs to weekday, weekend")]
    [InlineData("periods: [off-peak], pricePerKwh", "periods: [off-peak], seasons: [summer], pricePerKwh", "#/energyCharges", "season winter, period off-peak: 0")]
    [InlineData("periods: [off-peak], pricePerKwh", "pricePerKwh", "#/energyCharges", "period on-peak: 2")]
    [InlineData("periods: [on-peak, off-peak]", "periods: [on-peak, off-peak, never]", "#/periods/2", "never")]
    public void Plan_CoversADayOrPeriodNeverOrTwice_IsAFault(string right, string wrong, string pointer, string found)
    {
        var faults = RatePlanDocument.Read(Valid.Replace(right, wrong, StringComparison.Ordinal), "test").Faults;

        Assert.Contains(faults, f => f.Pointer == pointer && f.Value.Contains(found, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("blocks: [ { upToKwh: 100, pricePerKwh: 0.1 } ]", "#/energyCharges/0/blocks/0")]
    [InlineData("blocks: [ { pricePerKwh: 0.1 }, { pricePerKwh: 0.2 } ]", "#/energyCharges/0/blocks/0")]
    [InlineData("blocks: [ { upToKwh: 100, pricePerKwh: 0.1 }, { upToKwh: 100, pricePerKwh: 0.1 }, { pricePerKwh: 0.2 } ]", "#/energyCharges/0/blocks/1/upToKwh")]
    [InlineData("blocks: [ { pricePerKwh: { off-peak: 0.1 } } ]", "#/energyCharges/0/blocks/0/pricePerKwh")]
    public void Blocks_OutOfOrder_AreRefused(string blocks, string pointer)
    {
        var text = Valid.Replace("pricePerKwh: 0.2", "limitPer: month, " + blocks, StringComparison.Ordinal);

        Assert.Contains(RatePlanDocument.Read(text, "test").Faults, f => f.Pointer == pointer);
    }

    [Theory]
    [InlineData("name: &a Test")]
    [InlineData("name: *a")]
    [InlineData("name: !!str Test")]
    [InlineData("name: !System.Object Test")]
    [InlineData("<<: { a: 1 }")]
    [InlineData("name: Test\nname: Test")]
    [InlineData("? [a, b]\n: c")]
    [InlineData("name: \"unclosed")]
    [InlineData("\tname: Test")]
    [InlineData("name: Test\n--- \nname: Test")]
    [InlineData("")]
    [InlineData("just a text")]
    [InlineData("- 1")]
    [InlineData("{")]
    [InlineData("{\"name\": 1e999, }")]
    [InlineData("{\"name\": \"\\ud800\"}")]
    [InlineData("{\"\\ud800\": 1}")]
    [InlineData("name: \"\\ud800\"")]
    [InlineData("name: \"\\U00110000\"")]
    [InlineData("name: \"\\0\"")]
    [InlineData("%YAML 9.9\n---\nname: Test")]
    [InlineData("\ufeffname: Test")]
    [InlineData("{\"a\": 1, \"a\": 2}")]
    [InlineData("{} {}")]
    [InlineData("{ // comment\n}")]
    public void Text_HostileOrBroken_IsRefusedWithAFault(string text) => Assert.NotEmpty(RatePlanDocument.Read(text, "test").Faults);

    public static TheoryData<string, string> Huge => new()
    {
        { "depth, YAML", "a: " + new string('[', 40) + new string(']', 40) },
        { "depth, JSON", "{\"a\":" + new string('[', 40) + new string(']', 40) + "}" },
        { "nesting without end, YAML", "a: " + new string('[', 500_000) },
        { "nesting without end, JSON", "{\"a\":" + new string('[', 500_000) },
        { "nodes, YAML", "a: [" + string.Concat(Enumerable.Repeat("1,", 30_000)) + "]" },
        { "nodes, JSON", "{\"a\":[" + string.Concat(Enumerable.Repeat("1,", 30_000)) + "1]}" },
        { "keys", string.Concat(Enumerable.Range(0, 30_000).Select(i => $"k{i}: 1\n")) },
        { "size", "name: " + new string('x', 1_100_000) },
        { "size in bytes", "name: " + new string('\u20ac', 400_000) },
        { "one long line", "name: " + new string('x', 1_000_000) },
        { "block indents", string.Concat(Enumerable.Range(0, 1000).Select(i => new string(' ', i) + "a:\n")) },
        { "dashes", string.Concat(Enumerable.Repeat("- ", 100_000)) },
    };

    [Theory]
    [MemberData(nameof(Huge))]
    public void Text_BeyondALimit_IsRefusedWithoutDoingTheWorkFirst(string what, string text)
    {
        var before = GC.GetAllocatedBytesForCurrentThread();

        Assert.NotEmpty(RatePlanDocument.Read(text, "test").Faults);

        // All that was ever allocated, the same on every run; 18 MiB were the most on 28 November 2026. No limit is found out by doing the work first.
        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        Assert.True(allocated < 48L * 1024 * 1024, $"{what}: {allocated} bytes for {text.Length} characters");
    }

    [Fact]
    public void Faults_ByTheThousand_AreNotAllListed()
    {
        var text = Valid + "\n" + string.Concat(Enumerable.Range(0, 15_000).Select(i => $"unknown{i}: 1\n"));

        Assert.Equal(101, RatePlanDocument.Read(text, "test").Faults.Count);
    }

    [Fact]
    public void Fault_OfAnEmptyText_ShowsIt()
    {
        var fault = Assert.Single(RatePlanDocument.Read(Valid.Replace("currency: USD", "currency: \"\"", StringComparison.Ordinal), "test").Faults);
        Assert.Equal(("#/currency", "\"\""), (fault.Pointer, fault.Value));
    }

    [Fact]
    public void Fault_OfALongValue_IsShort()
    {
        var text = Valid.Replace("currency: USD", "currency: " + new string('x', 100_000), StringComparison.Ordinal);

        var fault = Assert.Single(RatePlanDocument.Read(text, "test").Faults);
        Assert.True(Encoding.UTF8.GetByteCount(fault.ToString()) < 400);
    }

    [Theory]
    [InlineData("")]
    [InlineData("../secret")]
    [InlineData("a b")]
    public void Identifier_NoPlainName_IsRefused(string id) => Assert.NotEmpty(RatePlanDocument.Read(Valid, id).Faults);
}
