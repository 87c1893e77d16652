using NodaTime;
using ScheduleOpt.Interchange.Prices;

namespace ScheduleOpt.Interchange.Tests.Prices;

public sealed class PriceTableTests
{
    private static readonly DateTimeZone Chicago = DateTimeZoneProviders.Tzdb["America/Chicago"];

    [Theory]
    [InlineData("time,price\n2026-01-14 00:00,0.05\n2026-01-14 01:00,-0.01\n")]
    [InlineData("Zeit;Price USD/kWh\n14.01.2026 00:00;0,05\n14.01.2026 01:00;-0,01\n")]
    [InlineData("Date,Hour Ending,LMP ($/MWh)\n01/14/2026,01:00,50.00\n01/14/2026,02:00,-10.00\n")]
    [InlineData("interval start,cents per kWh\n2026-01-14T06:00:00Z,5\n2026-01-14T07:00:00Z,-1\n")]
    [InlineData("time,price\n2026-01-14 01:00,-0.01\n2026-01-14 00:00,0.05\n")]
    public void Table_OfAnyForm_IsTheSameTwoPrices(string text)
    {
        var prices = PriceTable.Read(text, Chicago).Value.Series;
        Assert.Equal(Instant.FromUtc(2026, 1, 14, 6, 0), prices.Start);
        Assert.Equal(Duration.FromHours(1), prices.Interval);
        Assert.Equal([0.05m, -0.01m], prices.PerKwh);
    }

    [Fact]
    public void Table_WithBlanksAndMissingRows_HasNoPriceThere()
    {
        var prices = PriceTable.Read("time,price\n2026-01-14 00:00,1\n2026-01-14 01:00,\n2026-01-14 02:00,3\n2026-01-14 04:00,5\n", Chicago).Value.Series;
        Assert.Equal([1m, null, 3m, null, 5m], prices.PerKwh);
    }

    [Fact]
    public void Table_OverTheDaysOnWhichTheClockChanges_Has25And23Hours()
    {
        // 1 November 2026: 01:00 twice. 8 March 2026: no 02:00.
        string Day(string date, IEnumerable<int> hours) => "time,price\n" + string.Concat(hours.Select((h, i) => $"{date} {h:00}:00,{i}\n"));
        var autumn = PriceTable.Read(Day("2026-11-01", [0, 1, 1, .. Enumerable.Range(2, 22)]), Chicago).Value.Series;
        Assert.Equal(Enumerable.Range(0, 25).Select(i => (decimal?)i), autumn.PerKwh);
        var spring = PriceTable.Read(Day("2026-03-08", [0, 1, .. Enumerable.Range(3, 21)]), Chicago).Value.Series;
        Assert.Equal(Enumerable.Range(0, 23).Select(i => (decimal?)i), spring.PerKwh);

        var skipped = PriceTable.Read(Day("2026-03-08", Enumerable.Range(0, 24)), Chicago);
        Assert.Contains(skipped.Faults, f => f.Line == 4 && f.Rule.Contains("skips", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("", null)]
    [InlineData("time,price\n", null)]
    [InlineData("time,price\n2026-01-14 00:00,1\n2026-01-14 01:00,dear\n", 3)]
    [InlineData("time,price\n2026-01-14 00:00,1\n2026-01-14 01:00,2\n2026-01-14 01:00,3\n2026-01-14 02:00,3\n", 4)]
    [InlineData("time,price\n2026-01-14 00:00,1\n2026-01-14 01:00,2\n2026-01-14 02:00,2\n2026-01-14 02:30,3\n", 5)]
    [InlineData("time,price day,price night\n2026-01-14 00:00,1,2\n2026-01-14 01:00,2,3\n", null)]
    [InlineData("time,price\n1970-01-01 00:00,1\n1970-01-01 00:05,1\n2099-01-01 00:00,1\n", null)]
    public void Table_ThatIsFaulty_IsRefusedWithItsLine(string text, int? line)
    {
        var reading = PriceTable.Read(text, Chicago);
        Assert.False(reading.IsRead);
        Assert.Contains(reading.Faults, f => line is null || f.Line == line);
    }

    [Fact]
    public void Table_WithAnyCharactersChanged_IsReadOrRefused()
    {
        var random = new Random(20260114);
        const string Good = "time,price\n2026-01-14 00:00,1.5\n2026-01-14 01:00,2\n2026-11-01 01:00,2\n";
        for (var i = 0; i < 2000; i++)
        {
            var text = Good.ToCharArray();
            for (var edits = random.Next(1, 5); edits > 0; edits--)
            {
                text[random.Next(text.Length)] = "0123456789,;:-/ \n\"aZ+\0"[random.Next(22)];
            }

            var reading = PriceTable.Read(new string(text), Chicago);
            Assert.True(reading.IsRead || reading.Faults.Count > 0);
        }
    }
}
