using NodaTime;
using ScheduleOpt.Core.Homes.Panels;

namespace ScheduleOpt.Core.Tests.Homes;

public sealed class PanelCheckTests
{
    private const int QuarterHoursOfAYear = 365 * 96;

    // NFPA 70 (NEC) 2023, 220.57: 7,200 VA or the nameplate, whichever is larger.
    [Theory]
    [InlineData(24, 7.2)]
    [InlineData(30, 7.2)]
    [InlineData(32, 7.68)]
    [InlineData(48, 11.52)]
    public void ServiceKva_Unit_IsAtLeastSevenPointTwo(double currentA, double kva) => Assert.Equal(kva, new ChargingLoad(currentA).ServiceKva, 9);

    // NFPA 70 (NEC) 2023, 625.42(A): a 100 A branch under load management carries 80 A.
    [Fact]
    public void MostTotalA_ThreeUnitsOnAManagedBranch_IsEightyPerCent()
    {
        Assert.Equal(80, ManagedBranch.MostTotalA(100, [30, 30, 30]), 9);
        Assert.Equal(60, ManagedBranch.MostTotalA(100, [30, 30]), 9);
    }

    // NFPA 70 (NEC), 220.87: 1.25 * 9.2 + 1.25 * 7.68 = 21.1 kVA of 48 kVA; 26.9 kVA left.
    [Fact]
    public void MeteredDemand_YearOfQuarterHours_AddsUp()
    {
        var estimate = MeteredDemandCheck.Of(new ElectricalService(200), Record(9.2), new ChargingLoad(32));

        Assert.Equal(PanelOutcome.RoomByThisEstimate, estimate.Outcome);
        Assert.Equal(11.5, estimate.HouseKva!.Value, 9);
        Assert.Equal(9.6, estimate.ChargingKva!.Value, 9);
        Assert.Equal(21.1, estimate.TotalKva!.Value, 9);
        Assert.Equal(26.9, estimate.LeftKva!.Value, 9);
        Assert.Equal(new ManagedMaximum(32, 7.68), estimate.Managed);
        Assert.Contains("electrician's calculation", PanelEstimate.Caution, StringComparison.Ordinal);
    }

    [Fact]
    public void MeteredDemand_NoRoom_OffersTheManagedMaximum()
    {
        // 24 kVA; 1.25 * 14 = 17.5; 1.25 * 11.52 = 14.4: 7.9 kVA too many. 6.5 / 1.25 / 0.24 = 21.67 A.
        var estimate = MeteredDemandCheck.Of(new ElectricalService(100), Record(14), new ChargingLoad(48));

        Assert.Equal(PanelOutcome.NoRoomByThisEstimate, estimate.Outcome);
        Assert.Equal(-7.9, estimate.LeftKva!.Value, 9);
        Assert.Equal(new ManagedMaximum(21, 5.04), estimate.Managed);
        Assert.Contains("app does not count", ManagedMaximum.Condition, StringComparison.Ordinal);
    }

    [Fact]
    public void MeteredDemand_LessThanSixAmperesLeft_HasNoManagedMaximum()
    {
        // 24 - 1.25 * 18 = 1.5 kVA; / 1.25 / 0.24 = 5 A.
        var estimate = MeteredDemandCheck.Of(new ElectricalService(100), Record(18), new ChargingLoad(48));

        Assert.Equal(new ManagedMaximum(0, 0), estimate.Managed);
    }

    [Fact]
    public void MeteredDemand_SumEqualToTheRating_HasRoom()
    {
        // 1.25 * 12 + 1.25 * 7.2 = 24.
        Assert.Equal(
            PanelOutcome.RoomByThisEstimate,
            MeteredDemandCheck.Of(new ElectricalService(100), Record(12), new ChargingLoad(30)).Outcome);
        Assert.Equal(
            PanelOutcome.NoRoomByThisEstimate,
            MeteredDemandCheck.Of(new ElectricalService(100), Record(12.01), new ChargingLoad(30)).Outcome);
    }

    [Theory]
    [InlineData(60)]
    [InlineData(30)]
    public void MeteredDemand_LongIntervals_CannotDecide(int minutes)
    {
        var record = Record(2) with { Interval = Duration.FromMinutes(minutes) };

        var estimate = MeteredDemandCheck.Of(new ElectricalService(200), record, new ChargingLoad(16));

        Assert.Equal(PanelOutcome.CannotDecide, estimate.Outcome);
        Assert.Contains($"{minutes} minutes can't decide", Assert.Single(estimate.Reasons), StringComparison.Ordinal);
        Assert.Null(estimate.TotalKva);
        Assert.Null(estimate.Managed);
    }

    [Fact]
    public void MeteredDemand_SolarStorageOrPeakLimiting_IsRefusedWithTheReason()
    {
        var refused = new[]
        {
            (Record(5) with { HasGeneration = true }, "Generation"),
            (Record(5) with { HasStorage = true }, "Storage"),
            (Record(5) with { HasPeakLimiting = true }, "Peaks are limited"),
            (Record(5, lowest: -0.1), "Generation"),
        };

        foreach (var (record, reason) in refused)
        {
            var estimate = MeteredDemandCheck.Of(new ElectricalService(200), record, new ChargingLoad(32));
            Assert.Equal(PanelOutcome.CannotDecide, estimate.Outcome);
            Assert.StartsWith(reason, Assert.Single(estimate.Reasons), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void MeteredDemand_ValuesMissing_CannotDecideBelowNinetyNinePerCent()
    {
        Assert.Equal(PanelOutcome.CannotDecide, Missing(QuarterHoursOfAYear / 90).Outcome);
        Assert.Equal(PanelOutcome.RoomByThisEstimate, Missing(QuarterHoursOfAYear / 110).Outcome);

        static PanelEstimate Missing(int count) => MeteredDemandCheck.Of(
            new ElectricalService(200),
            Record(5) with { AverageKw = [.. Record(5).AverageKw.Select((k, i) => i < count ? null : k)] },
            new ChargingLoad(32));
    }

    // NFPA 70 (NEC), 220.87(1), exception: 30 days, occupied, highest loaded phase, heating or cooling included.
    [Theory]
    [InlineData(29, true, true, 0.0, false)]
    [InlineData(30, false, true, 0.0, false)]
    [InlineData(30, true, false, 0.0, false)]
    [InlineData(30, true, true, null, false)]
    [InlineData(30, true, true, 3.0, true)]
    public void MeteredDemand_ThirtyDays_CountsUnderItsConditionsOnly(int days, bool occupied, bool leg, double? seasonal, bool decides)
    {
        var record = Record(5, days: days) with { Short = new ShortRecord(occupied, leg, seasonal) };

        var estimate = MeteredDemandCheck.Of(new ElectricalService(200), record, new ChargingLoad(32));

        Assert.Equal(decides, estimate.Outcome != PanelOutcome.CannotDecide);
        Assert.Equal(decides ? 1.25 * 8 : null, estimate.HouseKva);
        Assert.Equal(PanelOutcome.CannotDecide, MeteredDemandCheck.Of(new ElectricalService(200), record with { Short = null }, new ChargingLoad(32)).Outcome);
    }

    [Fact]
    public void HighestQuarterHour_FiveMinutes_IsOverEveryRunOfThree()
    {
        var record = Record(1) with { Interval = Duration.FromMinutes(5), AverageKw = [1, 1, 6, 9, 3, 1, null, 30, 30] };

        Assert.Equal(6, record.HighestQuarterHourKw!.Value, 9);
        Assert.Null((record with { Interval = Duration.FromMinutes(10) }).HighestQuarterHourKw);
    }

    [Fact]
    public void MeteredDemand_PowerFactor_TurnsKilowattsIntoKva() => Assert.Equal(
        1.25 * 10,
        MeteredDemandCheck.Of(new ElectricalService(200), Record(9) with { PowerFactor = 0.9 }, new ChargingLoad(32)).HouseKva!.Value,
        9);

    // NFPA 70 (NEC), 220.83: first 8 kVA at 100 %, the rest at 40 %, new heating or cooling at 100 %.
    [Fact]
    public void LoadList_ExistingDwelling_CountsFortyPerCentOfTheRest()
    {
        // 6 + 12 = 18: 8 + 4 = 12; + 5 new cooling = 17; + 7.2 for a unit of 24 A: 24.2 of 24 kVA. 7 kVA at 240 V: 29 A, the nameplate is 24 A.
        PanelLoad[] loads =
        [
            new("lighting, receptacles, small appliances", 6, PanelLoadKind.General),
            new("range, dryer, water heater", 12, PanelLoadKind.Appliance),
            new("heat pump", 5, PanelLoadKind.NewHeatingOrCooling),
        ];

        var estimate = LoadListCheck.Of(new ElectricalService(100), loads, new ChargingLoad(24));

        Assert.Equal(17, estimate.HouseKva!.Value, 9);
        Assert.Equal(-0.2, estimate.LeftKva!.Value, 9);
        Assert.Equal(PanelOutcome.NoRoomByThisEstimate, estimate.Outcome);
        Assert.Equal(24, estimate.Managed!.CurrentA);
        Assert.Equal(PanelOutcome.RoomByThisEstimate, LoadListCheck.Of(new ElectricalService(100), loads[..2], new ChargingLoad(24)).Outcome);
        Assert.Equal(PanelOutcome.CannotDecide, LoadListCheck.Of(new ElectricalService(100), loads[1..], new ChargingLoad(24)).Outcome);
    }

    private static DemandRecord Record(double peakKw, double lowest = 0.3, int days = 365) => new()
    {
        Interval = Duration.FromMinutes(15),
        AverageKw = [.. Enumerable.Range(0, days * 96).Select(i => (double?)(i == 1000 ? peakKw : i == 1001 ? lowest : 0.8))],
        HasGeneration = false,
        HasStorage = false,
        HasPeakLimiting = false,
    };
}
