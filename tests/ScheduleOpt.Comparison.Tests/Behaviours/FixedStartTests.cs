using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tests.Behaviours;

public sealed class FixedStartTests
{
    // 0.93 * 7.68 - 0.22 = 6.9224 kW at 20 degC; 0.5 -> 0.8 of 60 kWh is 18 kWh: 2.6003 h.
    private static readonly FixedStart Eleven = new(new LocalTime(23, 0), Sample.Chicago);

    [Theory]
    [InlineData(18, 0, 23, 0)]
    [InlineData(22, 59, 23, 0)]
    [InlineData(23, 0, 23, 0)]
    [InlineData(23, 30, 23, 30)]
    [InlineData(1, 30, 1, 30)]
    [InlineData(10, 59, 10, 59)]
    [InlineData(11, 0, 23, 0)]
    [InlineData(12, 0, 23, 0)]
    public void Start_ArrivalAtAnyHour_WaitsUnlessLessThanTwelveHoursLate(int hour, int minute, int startHour, int startMinute)
    {
        var arrival = Sample.Chicago.Departure(new LocalDateTime(2026, 6, 10, hour, minute)).Instant;
        var problem = From(arrival);

        var start = Eleven.StartOf(HomeStay.Of(problem).Single(), problem, 30);

        Assert.Equal(new LocalTime(startHour, startMinute), start.InZone(Sample.Chicago.Zone).TimeOfDay);
        Assert.InRange(start - arrival, Duration.Zero, Duration.FromHours(12));
    }

    [Fact]
    public void Run_NightOfSpringForward_BeginsOneHourLaterInElapsedTime()
    {
        // 8 March 2026: 02:00 becomes 03:00. Home at 21:00, start at 03:30 by the clock: 5.5 h later, not 6.5 h.
        var arrival = Sample.Chicago.Departure(new LocalDateTime(2026, 3, 7, 21, 0)).Instant;
        var problem = From(arrival);

        var run = BehaviourSimulator.Run(problem, new FixedStart(new LocalTime(3, 30), Sample.Chicago));

        var first = Array.FindIndex(run.Shares, s => s > 0);
        Assert.Equal(Duration.FromHours(5.5), problem.Boundaries[first] - arrival);
        Assert.Equal(2.6003, run.Replay.OnHours.Sum(), 1e-4);
    }

    [Fact]
    public void Run_NightOfFallBack_BeginsAtTheFirstOfTwoOccurrences()
    {
        // 1 November 2026: 01:00 to 02:00 comes twice.
        var arrival = Sample.Chicago.Departure(new LocalDateTime(2026, 10, 31, 21, 0)).Instant;
        var problem = From(arrival);

        var run = BehaviourSimulator.Run(problem, new FixedStart(new LocalTime(1, 30), Sample.Chicago));

        var first = Array.FindIndex(run.Shares, s => s > 0);
        Assert.Equal(Duration.FromHours(4.5), problem.Boundaries[first] - arrival);
    }

    [Fact]
    public void Run_StartInsideAnInterval_ChargesTheRestOfIt()
    {
        var problem = From(Sample.Monday);

        var run = BehaviourSimulator.Run(problem, new FixedStart(new LocalTime(18, 40), Sample.Chicago));

        // The interval 18:30 to 18:45 is charged for its last five minutes.
        Assert.Equal([0, 0, 1.0 / 3, 1], run.Shares.Take(4), (a, b) => Math.Abs(a - b) < 1e-9);
    }

    [Fact]
    public void Run_BelowTheMinimum_ChargesUpToItAtOnce()
    {
        // 3 kWh is below the minimum of 6 kWh: 3 / 6.9224 h at once, the rest of the 48 kWh from 23:00.
        var question = Sample.Question(Sample.Receptacle, 20, 0.05, Duration.FromHours(14));
        var problem = ChargingProblemBuilder.Build(question);

        var run = BehaviourSimulator.Run(problem, Eleven);

        var before = Enumerable.Range(0, problem.Count).Where(i => problem.Boundaries[i + 1] <= Sample.Monday + Duration.FromHours(5));
        Assert.Equal(3 / 6.9224, before.Sum(i => run.Replay.OnHours[i]), 1e-6);
        Assert.Equal(48, run.Replay.StoredKwh[^1], 1e-9);
    }

    private static ChargingProblem From(Instant arrival)
    {
        var question = Sample.Question(Sample.Receptacle, 20, 0.5, Duration.FromHours(14));
        return ChargingProblemBuilder.Build(question with
        {
            Start = arrival,
            End = arrival + Duration.FromHours(14),
            Prices = Sample.Flat(arrival, arrival + Duration.FromHours(14)),
        });
    }
}
