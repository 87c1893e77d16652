using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Core.Tests.Homes;

public sealed class SupplyTests
{
    // NFPA 70 (NEC) 2023, 625.42 and 210.20(A): 80 % of the breaker.
    [Theory]
    [InlineData(15, 12)]
    [InlineData(20, 16)]
    [InlineData(30, 24)]
    [InlineData(40, 32)]
    [InlineData(50, 40)]
    [InlineData(60, 48)]
    [InlineData(80, 64)]
    [InlineData(100, 80)]
    public void ContinuousRating_NecBreaker_IsEightyPerCent(double breakerA, double continuousA)
    {
        Assert.Equal(continuousA, Circuit(240, breakerA).ContinuousRatingA);
        Assert.Equal(continuousA, (Circuit(240, breakerA) with { Rule = ContinuousRatingRule.Unknown }).ContinuousRatingA);
    }

    // NFPA 70 (NEC) 2023, 210.20(A) and 240.6(A): at least 125 %, the next size that is made.
    [Theory]
    [InlineData(12, 15)]
    [InlineData(16, 20)]
    [InlineData(24, 30)]
    [InlineData(32, 40)]
    [InlineData(40, 50)]
    [InlineData(48, 60)]
    [InlineData(64, 80)]
    [InlineData(80, 100)]
    [InlineData(12.1, 20)]
    [InlineData(100, 125)]
    [InlineData(100.1, null)]
    public void StandardBreaker_ForAContinuousCurrent_IsTheSmallestThatIsMade(double continuousA, int? breakerA) =>
        Assert.Equal(breakerA, StandardBreaker.For(continuousA));

    // IEC 61851-1 currents at nominal voltages: P = V * I, on three phases 3 * 230 V * I.
    [Theory]
    [InlineData(120, 1, 15, 1.44)]
    [InlineData(240, 1, 100, 19.2)]
    [InlineData(208, 1, 40, 6.656)]
    [InlineData(400, 3, 20, 11.04)]
    [InlineData(230, 1, 40, 7.36)]
    [InlineData(240, 1, 40, 7.68)]
    public void ChargingPower_NominalSupply_IsVoltsTimesAmperes(int voltageV, int phases, double breakerA, double kilowatts) =>
        Assert.Equal(kilowatts, (Circuit(voltageV, breakerA) with { Phases = phases }).ChargingPower(TestVehicles.With(22)).Kilowatts, 9);

    // IEC 61851-1: 6 A is the lowest current that can be offered.
    [Theory]
    [InlineData(5.9, 0)]
    [InlineData(6.0, 0.72)]
    public void ChargingPower_AtTheMinimumCurrent_IsOffBelowIt(double offeredA, double kilowatts) =>
        Assert.Equal(kilowatts, (Circuit(120, 15) with { UnitLimitA = offeredA }).ChargingPower(TestVehicles.With(11)).Kilowatts, 9);

    [Fact]
    public void ChargingPower_OnBoardChargerBinds_IsItsPower() =>
        Assert.Equal(7.2, Circuit(240, 100).ChargingPower(TestVehicles.With(7.2)).Kilowatts, 9);

    [Fact]
    public void ChargingPower_OtherLoadsOnTheCircuit_AreTakenFromTheRating()
    {
        var shared = Circuit(120, 20) with { OtherLoadA = 8 };

        Assert.Equal(0.96, shared.ChargingPower(TestVehicles.With(11)).Kilowatts, 9);
        Assert.Equal(0, (shared with { OtherLoadA = 11 }).ChargingPower(TestVehicles.With(11)).Kilowatts);
    }

    // IEC 60364-7-722: the dedicated circuit's rated current as the installer states it, never above the breaker.
    [Theory]
    [InlineData(32, 32.0, 32)]
    [InlineData(32, 40.0, 32)]
    [InlineData(32, 25.0, 25)]
    [InlineData(40, null, 32)]
    public void ContinuousRating_DedicatedCircuit_IsTheStatedCurrent(double breakerA, double? statedA, double continuousA) =>
        Assert.Equal(continuousA, (Circuit(230, breakerA) with { Rule = ContinuousRatingRule.DedicatedCircuit, StatedCurrentA = statedA }).ContinuousRatingA);

    // CEN/CENELEC focus group on European EV charging, 7.6.5: 8 to 10 A is the prudent limit of a domestic socket.
    [Theory]
    [InlineData(16, null, 10)]
    [InlineData(16, 8.0, 8)]
    [InlineData(16, 13.0, 10)]
    [InlineData(6, null, 6)]
    public void ContinuousRating_DomesticSocket_IsAtMostTenAmperes(double breakerA, double? statedA, double continuousA) =>
        Assert.Equal(continuousA, (Circuit(230, breakerA) with { Rule = ContinuousRatingRule.DomesticSocket, StatedCurrentA = statedA }).ContinuousRatingA);

    [Theory]
    [InlineData(120, 1, true)]
    [InlineData(400, 3, true)]
    [InlineData(400, 1, false)]
    [InlineData(240, 3, false)]
    [InlineData(110, 1, false)]
    public void IsKnown_VoltageAndPhases_OnlyThoseThatOccur(int voltageV, int phases, bool known) => Assert.Equal(known, Supply.IsKnown(voltageV, phases));

    private static Supply Circuit(int voltageV, double breakerA) =>
        new() { VoltageV = voltageV, BreakerA = breakerA, Rule = ContinuousRatingRule.NecContinuousLoad };
}
