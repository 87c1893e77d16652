using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>Which intervals can't all be on below a peak, against every pattern of on and off.</summary>
public class PeakRoomTests
{
    private const int Count = 10;

    [Theory]
    [InlineData(1, false, 5)]
    [InlineData(1, false, 8)]
    [InlineData(2, false, 5)]
    [InlineData(3, false, 3)]
    [InlineData(3, false, 5)]
    [InlineData(3, true, 2)]
    [InlineData(3, true, 5)]
    public void NotAllOn_AgainstEveryPattern_RulesOutThoseThatPassThePeak(int hours, bool sliding, double peakKw)
    {
        // Half of the day the roof gives 2 kW more than the house takes.
        var problem = new HandMade(Count)
        {
            Import = HandMade.Filled(Count, 0.1),
            House = [.. Enumerable.Range(0, Count).Select(i => i % 4 * 0.5)],
            Solar = [.. Enumerable.Range(0, Count).Select(i => i is 3 or 4 or 8 ? (i % 4 * 0.5) + 2 : 0.0)],
            Terms = [Demand(hours, sliding)],
            Cars = [new() { Required = 1, LeastA = 7 }],
        }.Build();
        var model = HouseholdModel.Of(problem);
        var room = PeakRoom.Below(model, [new(0, peakKw)]);
        var (ruledOut, allowed) = (0, 0);
        for (var pattern = 0; pattern < 1 << Count; pattern++)
        {
            var on = Enumerable.Range(0, Count).Select(i => (pattern >> i & 1) == 1).ToArray();
            var passes = LeastPeakKw(model, on) > peakKw + 1e-9;
            var isOut = room.NotAllOn[0].Any(set => Enumerable.Range(set.First, set.End - set.First).All(i => on[i]));
            Assert.Equal(passes, isOut);
            ruledOut += isOut ? 1 : 0;
            allowed += isOut ? 0 : 1;

            // What counts as least off is never more than a pattern that stays below has.
            if (!passes)
            {
                Assert.True(on.Count(o => !o) >= room.LeastOff(0, 0, Count));
            }
        }

        Assert.True(ruledOut > 0 && allowed > 0);
    }

    private static DemandTerm Demand(int hours, bool sliding)
    {
        Interval month = new(HandMade.Start - Duration.FromDays(10), HandMade.Start + Duration.FromDays(10));
        return new("d", month, true, [month], Duration.FromHours(hours), sliding, 0, 0, 0, [new(null, 1)], null);
    }

    /// <summary>The peak when edges of windows take nothing: everything between two neighbours that are on runs throughout, at the least power.</summary>
    private static double LeastPeakKw(HouseholdModel model, bool[] on)
    {
        var import = new double[Count];
        for (var i = 0; i < Count; i++)
        {
            var throughout = on[i] && i > 0 && i < Count - 1 && on[i - 1] && on[i + 1];
            import[i] = Math.Max(0, model.BaseKw[i] + (throughout ? model.Cars[0].LeastKw[i] : 0));
        }

        return ((PeakModel)model.Terms[0]).Windows
            .Max(window => Enumerable.Range(0, window.Hours.Length).Sum(k => import[window.First + k] * window.Hours[k]) / window.Total);
    }
}
