using NodaTime;
using ScheduleOpt.Interchange.Meters;

namespace ScheduleOpt.Interchange.Tests.Meters;

public class GreenButtonTests
{
    private static Reading<MeterReadings> Read(string text, MissingIntervals missing = MissingIntervals.Refuse,
        EpochSeconds seconds = EpochSeconds.NotSaid) =>
        MeterFile.Read(text, Samples.In(Samples.Eastern) with { Missing = missing, EpochSeconds = seconds });

    private static MeterChannel House(string text, MissingIntervals missing = MissingIntervals.Refuse) => Read(text, missing).Value.House!;

    [Theory]
    [InlineData(-3, 310_000, 310)]
    [InlineData(0, 310, 310)]
    [InlineData(3, 2, 2000)]
    [InlineData(-12, 1_000_000_000_000, 1)]
    [InlineData(6, 1, 1_000_000)]
    public void PowerOfTen_ScalesExactly(int power, long value, decimal wattHours) =>
        Assert.Equal(wattHours / 1000, House(Espi.File(Espi.Type(power: power), Espi.Hours(value))).Series.TotalKilowattHours);

    [Fact]
    public void Value_SmallerThanAMillionthOfAKilowattHour_IsRoundedHalfUp() =>
        Assert.Equal(0.000003m, House(Espi.File(Espi.Type(power: -4), Espi.Hours(25))).Series.TotalKilowattHours);

    [Fact]
    public void Register_StandsAtTheEndOfHours_AreDifferenced()
    {
        var readings = Read(Espi.File(Espi.Type(accumulation: 1), Espi.Hours(1000, 1310, 1310, 2000))).Value;

        Assert.Equal([310_000, 0, 690_000], readings.House!.Series.MicroKilowattHours.ToArray());
        Assert.Equal(Espi.Start + 3600, readings.House.Series.Start.ToUnixTimeSeconds());
        Assert.Contains(readings.Warnings, w => w.Contains("register", StringComparison.Ordinal));
    }

    [Fact]
    public void Register_RunsBackwards_LeavesAGap()
    {
        var file = Espi.File(Espi.Type(accumulation: 1), Espi.Hours(99_000, 99_500, 100, 400));

        Assert.Contains(Read(file).Faults, f => f.Rule.StartsWith("Intervals without a reading", StringComparison.Ordinal));
        var house = House(file, MissingIntervals.Zero);
        Assert.Equal([500_000, 0, 300_000], house.Series.MicroKilowattHours.ToArray());
        Assert.Equal(1, house.Report.ReadingsUnusable);
    }

    [Fact]
    public void Register_StampsWithoutLength_AreDifferencedFromStampToStamp()
    {
        var stands = Espi.Block(string.Concat(Enumerable.Range(0, 5).Select(i => Espi.Reading(Espi.Start + (900 * i), 0, 100 * i))));

        var series = House(Espi.File(Espi.Type(accumulation: 1, length: null), stands)).Series;
        Assert.Equal(Duration.FromMinutes(15), series.Interval);
        Assert.Equal([100_000, 100_000, 100_000, 100_000], series.MicroKilowattHours.ToArray());
    }

    [Fact]
    public void Watts_TimesTheInterval_AreEnergy()
    {
        var quarters = Espi.Block(string.Concat(Enumerable.Range(0, 4).Select(i => Espi.Reading(Espi.Start + (900 * i), 900, 2000))));

        Assert.Equal(2m, House(Espi.File(Espi.Type(unit: 38, accumulation: 12, length: 900), quarters)).Series.TotalKilowattHours);
    }

    [Theory]
    [InlineData(73, 4, "uom 73")]
    [InlineData(169, 4, "uom 169")]
    [InlineData(72, 12, "accumulation behaviour 12")]
    [InlineData(72, 3, "accumulation behaviour 3")]
    public void OtherQuantities_AreLeftOutAndSaid(int unit, int accumulation, string said)
    {
        var file = Espi.Feed(
            Espi.Point(), Espi.Meter(), Espi.Type(), Espi.Hours(310),
            Espi.Meter("2"), Espi.Type(unit: unit, accumulation: accumulation, meter: "2"), Espi.Block(Espi.Reading(Espi.Start, 3600, 5), meter: "2"));

        var readings = Read(file).Value;
        Assert.Single(readings.Channels);
        Assert.Contains(readings.Skipped, s => s.Contains(said, StringComparison.Ordinal));
    }

    [Fact]
    public void Gas_Alone_IsRefused()
    {
        var reading = Read(Espi.Feed(Espi.Point(kind: 1), Espi.Meter(), Espi.Type(), Espi.Hours(310)));

        Assert.Contains("service category 1", Assert.Single(reading.Faults).Value, StringComparison.Ordinal);
    }

    [Fact]
    public void FlowDirections_AreKeptApart()
    {
        var file = Espi.Feed(
            Espi.Point(), Espi.Meter(), Espi.Type(), Espi.Hours(310, 0),
            Espi.Meter("2"), Espi.Type(flow: 19, meter: "2"), Espi.Block(Espi.Reading(Espi.Start, 3600, 0)
                + Espi.Reading(Espi.Start + 3600, 3600, 70), meter: "2"));

        var readings = Read(file).Value;
        Assert.Equal(0.31m, readings.House!.Series.TotalKilowattHours);
        Assert.Equal(0.07m, readings.Export!.Series.TotalKilowattHours);
    }

    [Fact]
    public void NetFlow_IsImportAndExportOfEachInterval()
    {
        var readings = Read(Espi.File(Espi.Type(flow: 4), Espi.Hours(500, -200, 300))).Value;

        Assert.Equal([500_000, 0, 300_000], readings.House!.Series.MicroKilowattHours.ToArray());
        Assert.Equal([0, 200_000, 0], readings.Export!.Series.MicroKilowattHours.ToArray());
    }

    [Fact]
    public void NegativeReading_OfADeliveredFlow_IsMissing()
    {
        Assert.False(Read(Espi.File(Espi.Type(), Espi.Hours(500, -200, 300))).IsRead);
        var readings = Read(Espi.File(Espi.Type(), Espi.Hours(500, -200, 300)), MissingIntervals.Zero).Value;
        Assert.Equal(0.8m, readings.House!.Series.TotalKilowattHours);
        Assert.Contains(readings.Warnings, w => w.Contains("negative", StringComparison.Ordinal));
    }

    [Fact]
    public void MissingTimePeriod_FollowsTheBlocksStart()
    {
        var block = Espi.Block(Espi.Reading(null, null, 100) + Espi.Reading(null, null, 200) + Espi.Reading(null, null, 300), Espi.Start, 2700);

        var readings = Read(Espi.File(Espi.Type(length: 900), block)).Value;
        Assert.Equal([100_000, 200_000, 300_000], readings.House!.Series.MicroKilowattHours.ToArray());
        Assert.Equal(Espi.Start, readings.House.Series.Start.ToUnixTimeSeconds());
        Assert.Contains(readings.Guesses, g => g.Contains("follow one another", StringComparison.Ordinal));
    }

    [Fact]
    public void MissingTimePeriod_NoIntervalLengthEither_IsRefused()
    {
        var block = Espi.Block(Espi.Reading(null, null, 100) + Espi.Reading(null, null, 200), null);

        Assert.Contains(Read(Espi.File(Espi.Type(length: null), block)).Faults, f =>
            f.Rule.StartsWith("A reading must have a time", StringComparison.Ordinal));
    }

    [Fact]
    public void Duplicates_TheLaterUpdated_Wins()
    {
        var early = Espi.Block(Espi.Reading(Espi.Start, 3600, 100), updated: "2026-02-01T00:00:00Z");
        var late = Espi.Block(Espi.Reading(Espi.Start, 3600, 999), updated: "2026-02-01T00:00:01+00:00");

        foreach (var file in new[] { Espi.File(Espi.Type(), early, late), Espi.File(Espi.Type(), late, early) })
        {
            var house = House(file);
            Assert.Equal(0.999m, house.Series.TotalKilowattHours);
            Assert.Equal(1, house.Report.DuplicatesReplaced);
        }
    }

    [Fact]
    public void Overlap_ATotalOverItsHours_IsDropped()
    {
        var total = Espi.Block(Espi.Reading(Espi.Start, 7200, 500));

        foreach (var file in new[] { Espi.File(Espi.Type(), Espi.Hours(200, 300), total), Espi.File(Espi.Type(), total, Espi.Hours(200, 300)) })
        {
            var house = House(file);
            Assert.Equal([200_000, 300_000], house.Series.MicroKilowattHours.ToArray());
            Assert.Equal(1, house.Report.OverlapsDropped);
        }
    }

    [Fact]
    public void Gap_Refused_IsNamed()
    {
        var block = Espi.Block(Espi.Reading(Espi.Start, 3600, 1) + Espi.Reading(Espi.Start + (4 * 3600), 3600, 1));

        var fault = Assert.Single(Read(Espi.File(Espi.Type(), block)).Faults);
        Assert.Equal("2026-01-01T01:00:00-05 to 2026-01-01T04:00:00-05: 3 missing", fault.Value);
    }

    [Fact]
    public void Gap_WithZero_IsFilledAndSaid()
    {
        var block = Espi.Block(Espi.Reading(Espi.Start, 3600, 1) + Espi.Reading(Espi.Start + (4 * 3600), 3600, 1));

        var report = House(Espi.File(Espi.Type(), block), MissingIntervals.Zero).Report;
        Assert.Equal(3, report.MissingIntervals);
        Assert.Equal(0.6, report.MissingShare, 12);
        Assert.Equal(Duration.FromHours(3), Assert.Single(report.LongGaps) is var gap ? gap.End - gap.Start : default);
        Assert.NotEmpty(report.MissingRule);
        Assert.False(report.IsEnoughForAYear);
    }

    [Fact]
    public void Gap_WithNeighbouringWeeks_IsTheMeanOfTheSameLocalHour()
    {
        // Three weeks over 8 March 2026, when clocks go forward: hour of day as energy, the week before at 100 Wh more. 9 March 07:00 local is missing.
        var start = Instant.FromUtc(2026, 3, 1, 5, 0);
        var missing = new LocalDateTime(2026, 3, 9, 7, 0).InZoneStrictly(Samples.Eastern).ToInstant();
        var readings = Enumerable.Range(0, (22 * 24) - 1).Select(h => start + Duration.FromHours(h)).Where(i => i != missing).Select(i =>
        {
            var local = i.InZone(Samples.Eastern);
            return Espi.Reading(i.ToUnixTimeSeconds(), 3600, (local.Hour * 10) + (local.Date < new LocalDate(2026, 3, 8) ? 100 : 0));
        });

        var series = House(Espi.File(Espi.Type(), Espi.Block(string.Concat(readings))), MissingIntervals.NeighbouringWeeks).Series;
        // 2 March 07:00: 170 Wh, 16 March 07:00: 70 Wh.
        Assert.Equal(120_000, series.MicroKilowattHours[(int)(missing - series.Start).TotalHours]);
    }

    [Fact]
    public void Gap_NoNeighbour_IsRefused()
    {
        var block = Espi.Block(Espi.Reading(Espi.Start, 3600, 1) + Espi.Reading(Espi.Start + 3600, 3600, 1) + Espi.Reading(Espi.Start + (3 * 3600), 3600, 1));

        Assert.Contains("four weeks", Assert.Single(Read(Espi.File(Espi.Type(), block), MissingIntervals.NeighbouringWeeks).Faults).Rule,
            StringComparison.Ordinal);
    }

    [Fact]
    public void DaysOf23And25Hours_ReadByTheDay_AreSpreadOverTheirHours()
    {
        var days = new[] { new LocalDate(2026, 3, 7), new LocalDate(2026, 3, 8), new LocalDate(2026, 3, 9) }.Select(d =>
        {
            var (from, to) = (d.AtStartOfDayInZone(Samples.Eastern), d.PlusDays(1).AtStartOfDayInZone(Samples.Eastern));
            return Espi.Reading(from.ToInstant().ToUnixTimeSeconds(), (int)(to - from).TotalSeconds, 23_000);
        });

        var readings = Read(Espi.File(Espi.Type(length: 86_400), Espi.Block(string.Concat(days)))).Value;
        Assert.Equal(Duration.FromHours(1), readings.House!.Series.Interval);
        Assert.Equal(69m, readings.House.Series.TotalKilowattHours);
        Assert.Equal(24 + 23 + 24, readings.House.Series.Count);
        Assert.Equal(1_000_000, readings.House.Series.MicroKilowattHours[24 + 5]);
        Assert.Contains(readings.Warnings, w => w.Contains("spread evenly", StringComparison.Ordinal));
    }

    [Fact]
    public void LocalSeconds_EveryDayFromMidnightUtc_AreAskedAbout()
    {
        var midnight = Instant.FromUtc(2026, 1, 1, 0, 0).ToUnixTimeSeconds();
        var days = Enumerable.Range(0, 2).Select(d => Espi.Block(
            string.Concat(Enumerable.Range(0, 24).Select(h => Espi.Reading(midnight + (86_400 * d) + (3600 * h), 3600, 10))), midnight
                + (86_400 * d), 86_400)).ToArray();
        var file = Espi.File(Espi.Type(), days);

        Assert.Contains("local seconds", Assert.Single(Read(file).Faults).Rule, StringComparison.Ordinal);
        Assert.Equal(midnight, Read(file, seconds: EpochSeconds.Utc).Value.House!.Series.Start.ToUnixTimeSeconds());
        Assert.Equal(midnight + (5 * 3600), Read(file, seconds: EpochSeconds.Local).Value.House!.Series.Start.ToUnixTimeSeconds());
        // Where the local clock is UTC there is nothing to ask.
        Assert.True(MeterFile.Read(file, Samples.In(DateTimeZone.Utc)).IsRead);
    }

    [Fact]
    public void VehicleMeter_ByItsRole_IsNotTheHouse()
    {
        var readings = Read(Espi.Feed(Espi.Point(roles: "0008"), Espi.Meter(), Espi.Type(), Espi.Hours(310))).Value;

        Assert.Null(readings.House);
        Assert.Equal(0.31m, readings.Vehicle!.Series.TotalKilowattHours);
    }

    [Fact]
    public void NamesAndAddresses_AreNotKept()
    {
        var file = Espi.File(Espi.Type(), Espi.Hours(310))
            .Replace("<content><UsagePoint", "<title>Jane Doe, 12 Elm Street, account 4711</title><content><UsagePoint", StringComparison.Ordinal);

        Assert.DoesNotContain("Elm", System.Text.Json.JsonSerializer.Serialize(Read(file).Value.Channels.Select(c => c.Name)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("<!DOCTYPE feed [<!ENTITY a \"b\">]><feed/>", "document type")]
    [InlineData("<feed><entry>", "well-formed")]
    [InlineData("<html><body/></html>", "Atom feed")]
    [InlineData("<feed/>", "IntervalBlock")]
    public void NotGreenButton_IsAClearFault(string text, string rule) =>
        Assert.Contains(rule, Read(text).Faults[0].Rule, StringComparison.Ordinal);

    [Theory]
    [InlineData("abc")]
    [InlineData("")]
    [InlineData("1.5")]
    [InlineData("99999999999999999999")]
    public void Value_NotAWholeNumber_IsAFaultWithPlaceAndLine(string value)
    {
        var fault = Read(Espi.File(Espi.Type(), Espi.Hours(310)).Replace("<value>310</value>", $"<value>{value}</value>",
            StringComparison.Ordinal)).Faults[0];

        Assert.Equal("#/entry/4/IntervalBlock/IntervalReading/0/value", fault.Pointer);
        Assert.Equal(value, fault.Value);
        Assert.NotNull(fault.Line);
    }

    [Fact]
    public void Utf16_IsRead()
    {
        var file = Espi.File(Espi.Type(), Espi.Hours(310)).Replace("UTF-8", "UTF-16", StringComparison.Ordinal);
        using var stream = new MemoryStream(System.Text.Encoding.Unicode.GetBytes(file));

        Assert.Equal(0.31m, MeterFile.Read(stream, Samples.In(Samples.Eastern)).Value.House!.Series.TotalKilowattHours);
    }
}
