using System.Globalization;
using System.Text;
using NodaTime;
using ScheduleOpt.Interchange.Meters;

namespace ScheduleOpt.Interchange.Tests.Meters;

// Layouts that utilities use; common practice, no source.
public class CsvTests
{
    private static readonly LocalDate Spring = new(2026, 3, 8), Autumn = new(2026, 11, 1);

    private static Reading<MeterReadings> Read(string text, MissingIntervals missing = MissingIntervals.Refuse, CsvLayout? layout = null,
        DateTimeZone? zone = null) =>
        MeterFile.Read(text, new MeterFileOptions { Zone = zone ?? Samples.Eastern, Missing = missing, Csv = layout ?? new() });

    private static long[] Units(Reading<MeterReadings> reading) => reading.Value.House!.Series.MicroKilowattHours.ToArray();

    [Fact]
    public void Sample_MissingReading_IsNotZero()
    {
        // usage.csv: a preamble, an end of 00:59, a repeated hour, "1,028.00", a blank reading at the end.
        var readings = Read(Samples.Text("usage.csv")).Value;

        Assert.Equal([310_000, 290_000, 280_000, 1_028_000_000], readings.House!.Series.MicroKilowattHours.ToArray());
        Assert.Equal(Autumn.AtStartOfDayInZone(Samples.Eastern).ToInstant(), readings.House.Series.Start);
        Assert.Contains(readings.Warnings, w => w.Contains("blank", StringComparison.Ordinal));
        Assert.Contains(readings.Warnings, w => w.Contains("1028 kW", StringComparison.Ordinal));
        Assert.Contains(readings.Guesses, g => g.Contains("row 4", StringComparison.Ordinal));
        Assert.Contains(readings.Guesses, g => g.Contains("00:59", StringComparison.Ordinal));
        Assert.Contains(readings.Guesses, g => g.Contains("'USAGE (kWh)'; unit: kWh", StringComparison.Ordinal));
        Assert.Contains(readings.Guesses, g => g.Contains("legal time of America/New_York", StringComparison.Ordinal));
    }

    [Fact]
    public void BlankReading_InTheMiddle_IsAGap()
    {
        const string Text = "Date,Time,kWh\n2026-01-01,00:00,1\n2026-01-01,01:00,\n2026-01-01,02:00,3\n";

        Assert.Contains("1 missing", Assert.Single(Read(Text).Faults).Value, StringComparison.Ordinal);
        Assert.Equal([1_000_000, 0, 3_000_000], Units(Read(Text, MissingIntervals.Zero)));
    }

    [Theory]
    [InlineData("Date,Start Time,End Time,Usage (kWh)\n{0},00:00,00:59,1\n{0},01:00,01:59,2\n")]
    [InlineData("Date,Start Time,End Time,Usage (kWh)\n{0},00:00,01:00,1\n{0},01:00,02:00,2\n")]
    [InlineData("Date,Time,Usage (kWh)\n{0},12:00 AM,1\n{0},1:00 AM,2\n")]
    [InlineData("Interval Start,Interval End,Usage (kWh)\n{0} 00:00:00,{0} 01:00:00,1\n{0} 01:00:00,{0} 02:00:00,2\n")]
    [InlineData("Interval End,kWh Delivered\n{0} 01:00,1\n{0} 02:00,2\n")]
    [InlineData("Timestamp;Energy kWh\n{0}T00:00;1,0\n{0}T01:00;2,0\n")]
    [InlineData("Timestamp,Energy kWh\n{0}T00:00,\"1,0\"\n{0}T01:00,\"2,00\"\n")]
    [InlineData("Time\tkWh\n{0}T00:00:00-05:00\t1\n{0}T01:00:00-05:00\t2\n")]
    [InlineData("Time,kWh\n{0}T05:00:00Z,1\n{0}T06:00:00Z,2\n")]
    [InlineData("Usage (Wh),Read Time\n1000,{0} 00:00\n2000,{0} 01:00\n")]
    [InlineData("Date,Time,Units,Usage,Cost\n{0},00:00,kWh,1,$0.10\n{0},01:00,kWh,2,$0.20\n")]
    [InlineData("Date,Time,Usage (kWh)\n{0},01:00,2\n{0},00:00,1\n")]
    [InlineData("Date,Hour,kWh\n{0},0,1\n{0},1,2\n")]
    [InlineData("Date,Hour Ending,kWh\n{0},1,1\n{0},2,2\n")]
    [InlineData("Date,Time,kWh,Quality\n{0},0000,1,A\n{0},0100,2,E\n")]
    [InlineData("Meter report\n\nJane Doe,12 Elm Street\nDate,Time,Usage (kWh)\n{0},00:00,1.0 kWh\n{0},01:00,2.0 kWh\nTotal,,3\n")]
    public void Layout_IsRecognised(string layout)
    {
        var series = Read(string.Format(CultureInfo.InvariantCulture, layout, "2026-01-15")).Value.House!.Series;

        Assert.Equal([1_000_000, 2_000_000], series.MicroKilowattHours.ToArray());
        Assert.Equal(new LocalDate(2026, 1, 15).AtStartOfDayInZone(Samples.Eastern).ToInstant(), series.Start);
        Assert.Equal(Duration.FromHours(1), series.Interval);
    }

    [Theory]
    [InlineData("1/15/2026")]
    [InlineData("01/15/26")]
    [InlineData("15-Jan-2026")]
    [InlineData("Jan 15, 2026")]
    [InlineData("15.01.2026")]
    [InlineData("20260115")]
    [InlineData("2026/01/15")]
    public void Date_HoweverWritten_IsRead(string date) =>
        Assert.Equal(
            new LocalDate(2026, 1, 15).AtStartOfDayInZone(Samples.Eastern).ToInstant(),
            Read($"Date,Time,kWh\n\"{date}\",00:00,1\n\"{date}\",01:00,2\n").Value.House!.Series.Start);

    [Fact]
    public void Kilowatts_AreMeanPower()
    {
        var readings = Read("Date,Time,Demand (kW)\n2026-01-15,00:00,4\n2026-01-15,00:15,8\n");
        Assert.Equal([1_000_000, 2_000_000], Units(readings));
    }

    [Fact]
    public void EnergyAndPowerSideBySide_EnergyIsTaken() =>
        Assert.Equal([1_000_000, 2_000_000], Units(Read("Date,Time,Usage kW,Usage kWh\n2026-01-15,00:00,4,1\n2026-01-15,00:15,8,2\n")));

    [Fact]
    public void DeliveredAndReceived_AreKeptApart()
    {
        var readings = Read("Date,Time,Delivered kWh,Received kWh\n2026-01-15,00:00,1,0\n2026-01-15,01:00,0,2\n").Value;

        Assert.Equal([1_000_000, 0], readings.House!.Series.MicroKilowattHours.ToArray());
        Assert.Equal([0, 2_000_000], readings.Export!.Series.MicroKilowattHours.ToArray());
    }

    [Fact]
    public void RowsOfGas_AreLeftOut()
    {
        var readings = Read("TYPE,DATE,START TIME,USAGE (kWh)\nNatural gas usage,2026-01-15,00:00,5\nElectric usage,2026-01-15,00:00,1\nElectric usage,2026-01-15,01:00,2\n").Value;

        Assert.Equal(3m, readings.House!.Series.TotalKilowattHours);
        Assert.Contains(readings.Skipped, s => s.Contains("gas", StringComparison.Ordinal));
    }

    [Fact]
    public void TwentyFourOClock_IsTheEndOfTheDay()
    {
        var text = new StringBuilder("Date,Time,kWh\n");
        for (var day = 15; day < 17; day++)
        {
            for (var hour = 1; hour <= 24; hour++)
            {
                text.Append(CultureInfo.InvariantCulture, $"2026-01-{day},{hour:00}:00,{hour}\n");
            }
        }

        var readings = Read(text.ToString()).Value;
        Assert.Equal(new LocalDate(2026, 1, 15).AtStartOfDayInZone(Samples.Eastern).ToInstant(), readings.House!.Series.Start);
        Assert.Equal(48, readings.House.Series.Count);
        Assert.Contains(readings.Guesses, g => g.Contains("end of its interval", StringComparison.Ordinal));
    }

    // The day's energy counts up hour by elapsed hour, so that a wrong place shows.
    private static string Day(LocalDate date, Func<ZonedDateTime, ZonedDateTime, string> row)
    {
        var text = new StringBuilder();
        var (from, to) = (date.PlusDays(-1).AtStartOfDayInZone(Samples.Eastern), date.PlusDays(2).AtStartOfDayInZone(Samples.Eastern));
        for (var at = from; at.ToInstant() < to.ToInstant(); at = at.PlusHours(1))
        {
            text.Append(row(at, at.PlusHours(1))).Append('\n');
        }

        return text.ToString();
    }

    private static int Elapsed(ZonedDateTime at, LocalDate date) =>
        (int)(at.ToInstant() - date.PlusDays(-1).AtStartOfDayInZone(Samples.Eastern).ToInstant()).TotalHours;

    private static void Consecutive(LocalDate date, string text)
    {
        var series = Read(text).Value.House!.Series;
        Assert.Equal(date.PlusDays(-1).AtStartOfDayInZone(Samples.Eastern).ToInstant(), series.Start);
        Assert.Equal([.. Enumerable.Range(0, 48 + (date == Spring ? 23 : 25)).Select(h => h * 1_000_000L)], series.MicroKilowattHours.ToArray());
    }

    public static TheoryData<LocalDate> ClockChanges => [Spring, Autumn];

    [Theory]
    [MemberData(nameof(ClockChanges))]
    public void ClockChange_StartsOfLegalTime_AreInPlace(LocalDate date) =>
        Consecutive(date, "Start,kWh\n" + Day(date, (s, _) => $"{s:uuuu-MM-dd HH:mm},{Elapsed(s, date)}"));

    [Theory]
    [MemberData(nameof(ClockChanges))]
    public void ClockChange_EndsReadOffTheClock_AreInPlace(LocalDate date) =>
        Consecutive(date, "End,kWh\n" + Day(date, (s, e) => $"{e:uuuu-MM-dd HH:mm},{Elapsed(s, date)}"));

    [Theory]
    [MemberData(nameof(ClockChanges))]
    public void ClockChange_HourEnding_IsInPlace(LocalDate date) =>
        Consecutive(date, "Hour ending,kWh\n" + Day(date, (s, _) => $"{s.LocalDateTime.PlusHours(1):uuuu-MM-dd HH:mm},{Elapsed(s, date)}"));

    [Theory]
    [MemberData(nameof(ClockChanges))]
    public void ClockChange_StartAndEnd_AreInPlace(LocalDate date) =>
        Consecutive(date, "Start,End,kWh\n" + Day(date, (s, e) => $"{s:uuuu-MM-dd HH:mm},{e:uuuu-MM-dd HH:mm},{Elapsed(s, date)}"));

    [Theory]
    [MemberData(nameof(ClockChanges))]
    public void ClockChange_NewestFirst_IsInPlace(LocalDate date)
    {
        var rows = Day(date, (s, _) => $"{s:uuuu-MM-dd HH:mm},{Elapsed(s, date)}").TrimEnd().Split('\n');
        Consecutive(date, "Start,kWh\n" + string.Join('\n', rows.Reverse()));
    }

    [Theory]
    [MemberData(nameof(ClockChanges))]
    public void ClockChange_StandardTimeAllTheYear_IsInPlace(LocalDate date)
    {
        var standard = Offset.FromHours(-5);
        var text = "Start,kWh\n" + Day(date, (s, _) => $"{s.WithZone(DateTimeZone.ForOffset(standard)):uuuu-MM-dd HH:mm},{Elapsed(s, date) + 1}");

        // In spring the table shows it; in autumn no row does, and it has to be said.
        var readings = Read(text, layout: date == Spring ? null : new() { Clock = TableClock.StandardTime });
        Assert.Equal([.. Enumerable.Range(1, 48 + (date == Spring ? 23 : 25)).Select(h => h * 1_000_000L)], Units(readings));
        Assert.Equal(date == Spring, readings.Value.Guesses.Any(g => g.Contains("standard time", StringComparison.Ordinal)));
    }

    [Fact]
    public void ClockChange_TwentyFourRowsInSpring_TheSkippedZeroIsLeftOut()
    {
        var rows = Enumerable.Range(0, 24).Select(h => $"2026-03-08 {h:00}:00,{(h == 2 ? 0 : h)}");
        Assert.Equal([.. Enumerable.Range(0, 24).Where(h => h != 2).Select(h => h * 1_000_000L)], Units(Read("Start,kWh\n" + string.Join('\n', rows))));
    }

    [Fact]
    public void ClockChange_RepeatedHourWrittenOnce_IsMissingOrHalved()
    {
        var text = "Start,kWh\n" + string.Join('\n', Enumerable.Range(0, 24).Select(h => $"2026-11-01 {h:00}:00,{h + 1}"));

        Assert.Contains("2026-11-01T01:00:00-05", Assert.Single(Read(text).Faults).Value, StringComparison.Ordinal);
        var units = Units(Read(text, layout: new() { RepeatedHour = RepeatedHour.BothTogether }));
        Assert.Equal(25, units.Length);
        Assert.Equal([1_000_000, 1_000_000, 1_000_000, 3_000_000], units[..4]);
    }

    [Theory]
    [InlineData(24)]
    [InlineData(96)]
    public void RowADay_WithAColumnForEachInterval_IsRead(int columns)
    {
        var header = string.Join(',', Enumerable.Range(0, columns).Select(i => $"{i * 24 / columns:00}:{i * 1440 / columns % 60:00}"));
        var text = $"Account,Date,Units,{header}\n4711,01/15/2026,kWh,{string.Join(',', Enumerable.Range(0, columns))}\n4711,01/16/2026,kWh,{string.Join(',', Enumerable.Range(columns, columns))}\n";

        var readings = Read(text);
        Assert.Equal([.. Enumerable.Range(0, 2 * columns).Select(i => i * 1_000_000L)], Units(readings));
        Assert.Equal(Duration.FromMinutes(1440 / columns), readings.Value.House!.Series.Interval);
    }

    [Fact]
    public void RowADay_TwentyFiveColumns_CountThroughTheLongDay()
    {
        var header = string.Join(',', Enumerable.Range(1, 25).Select(i => $"HE{i:00}"));
        var text = $"Date,{header},Total kWh\n"
            + $"10/31/2026,{string.Join(',', Enumerable.Range(0, 24))},,276\n"
            + $"11/1/2026,{string.Join(',', Enumerable.Range(24, 25))},900\n"
            + $"11/2/2026,{string.Join(',', Enumerable.Range(49, 24))},,1452\n";

        Assert.Equal([.. Enumerable.Range(0, 73).Select(i => i * 1_000_000L)], Units(Read(text)));
    }

    [Fact]
    public void RowADay_OnTheShortDay_TheSkippedColumnIsBlank()
    {
        var header = string.Join(',', Enumerable.Range(1, 24).Select(i => $"Hour {i}"));
        var text = $"kWh by hour\nDate,{header}\n3/7/2026,{string.Join(',', Enumerable.Range(0, 24))}\n3/8/2026,24,25,,{string.Join(',', Enumerable.Range(26, 21))}\n";

        Assert.Equal([.. Enumerable.Range(0, 47).Select(i => i * 1_000_000L)], Units(Read(text)));
    }

    [Fact]
    public void DailyReadings_AreSpreadAndSaid()
    {
        var readings = Read("Date,Usage (kWh)\n2026-03-07,24\n2026-03-08,23\n2026-03-09,24\n").Value;

        Assert.Equal(71, readings.House!.Series.Count);
        Assert.All(readings.House.Series.MicroKilowattHours.ToArray(), u => Assert.Equal(1_000_000, u));
    }

    [Theory]
    [InlineData("America/New_York", 4)]
    [InlineData("Europe/London", 4)]
    public void DateOrder_TheNumberThatChangesIsTheDay(string zone, int days)
    {
        var text = "Date,Time,kWh\n"
            + string.Concat(Enumerable.Range(1, days).SelectMany(d => Enumerable.Range(0, 24).Select(h => $"0{d}/06/2026,{h:00}:00,1\n")));

        Assert.Equal(new LocalDate(2026, 6, 1), Read(text, zone: Samples.Zone(zone)).Value.House!.Series.Start.InZone(Samples.Zone(zone)).Date);
    }

    [Fact]
    public void Unit_NotStated_IsAskedFor()
    {
        const string Text = "Date,Time,Value\n2026-01-15,00:00,1\n2026-01-15,01:00,2\n";

        Assert.Equal("#/csv/unit", Assert.Single(Read(Text).Faults).Pointer);
        Assert.Equal(0.003m, Read(Text, layout: new() { Unit = MeterUnit.WattHours }).Value.House!.Series.TotalKilowattHours);
    }

    [Fact]
    public void Columns_ByTheClient_WinOverGuesses()
    {
        const string Text = "2026-01-15 01:00,9,1\n2026-01-15 02:00,9,2\n";
        var layout = new CsvLayout { DateColumn = "#1", DeliveredColumn = "#3", Unit = MeterUnit.KilowattHours, Label = StampLabel.End,
            IntervalMinutes = 60 };

        var series = Read(Text, layout: layout).Value.House!.Series;
        Assert.Equal(3m, series.TotalKilowattHours);
        Assert.Equal(new LocalDate(2026, 1, 15).AtStartOfDayInZone(Samples.Eastern).ToInstant(), series.Start);
        Assert.Equal("#/csv/deliveredColumn", Read(Text, layout: layout with { DeliveredColumn = "kWh" }).Faults[0].Pointer);
    }

    [Fact]
    public void SeveralMeters_InOneTable_AreRefused()
    {
        var rows = Enumerable.Range(0, 24).SelectMany(h => new[] { $"A,2026-01-15,{h:00}:00,1", $"B,2026-01-15,{h:00}:00,2" });

        Assert.Contains("several meters", Read("Meter,Date,Time,kWh\n" + string.Join('\n', rows)).Faults[0].Rule, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("Date,kWh\n")]
    [InlineData("a,b\nc,d\n")]
    [InlineData("2026-01-01\n2026-01-02\n")]
    [InlineData("Date,Time,kWh\n2026-01-15,00:00,1e9\n2026-01-15,01:00,2\n")]
    public void NothingToRead_IsAClearFault(string text) => Assert.NotEmpty(Assert.IsType<Fault>(Read(text).Faults[0]).Rule);

    [Theory]
    [InlineData("utf-8", true)]
    [InlineData("utf-16", true)]
    [InlineData("utf-16BE", false)]
    [InlineData("utf-16", false)]
    public void Encoding_WithOrWithoutMark_IsRecognised(string name, bool mark)
    {
        var encoding = Encoding.GetEncoding(name);
        byte[] bytes = [.. mark ? encoding.GetPreamble() : [], .. encoding.GetBytes("Date,Time,kWh\n2026-01-15,00:00,1\n2026-01-15,01:00,2\n")];
        using var stream = new MemoryStream(bytes);

        Assert.Equal(3m, MeterFile.Read(stream, Samples.In(Samples.Eastern)).Value.House!.Series.TotalKilowattHours);
    }
}
