using ScheduleOpt.Scheduling.Windows;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.Options;

/// <summary>The ageing price on dwell: calendar-ageing rates of NREL BLAST-Lite (2025, BSD-3), worked out at 20 degC for 60 kWh.</summary>
public class AgeingPriceTests
{
    [Fact]
    public void EightHours_At90And100Percent()
    {
        // 8 h * 0.0005 * 18 kWh = 0.072; at 100 %: 8 * (0.0005 * 24 + 0.001 * 6) = 0.144.
        var problem = Problems.OneNight([0.1], 0, 10, usableKwh: 60);
        Assert.Equal(0.072, Dwell.Price(problem, 0, 54, 8), 9);
        Assert.Equal(0.144, Dwell.Price(problem, 0, 60, 8), 9);
        Assert.Equal(0, Dwell.Price(problem, 0, 36, 8), 9);
    }

    [Fact]
    public void Chemistry_ChangesTheFirstPiece()
    {
        foreach (var (ageing, perKwhHour) in new[]
        {
            (AgeingPrice.LithiumIronPhosphate, 0.0002), (AgeingPrice.Default, 0.0005),
            (AgeingPrice.NickelManganeseCobalt, 0.0006), (AgeingPrice.NickelCobaltAluminium, 0.0009),
        })
        {
            var problem = ChargingProblemBuilder.Build(Nights.Plain() with { Ageing = ageing });
            Assert.Equal(8 * 18 * perKwhHour, Dwell.Price(problem, 0, 54, 8), 9);
        }
    }
}
