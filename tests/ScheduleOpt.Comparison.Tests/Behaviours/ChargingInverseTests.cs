using CsCheck;
using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tests.Behaviours;

public sealed class ChargingInverseTests
{
    private static readonly Gen<(ChargingProblem Problem, double Stored, double Hours)> Charges =
        from supply in Gen.OneOf(Sample.Outlet, Sample.Receptacle, Sample.Hardwired)
        from celsius in Gen.Double[-15, 35]
        from stored in Gen.Double[30, 59.9]
        from share in Gen.Double[0.01, 1]
        from grid in Gen.OneOf(5, 15, 30, 60)
        select (ChargingProblemBuilder.Build(Sample.Question(supply, celsius, 0.5, Duration.FromHours(1)) with
        {
            GridStep = Duration.FromMinutes(grid),
        }), stored, share * grid / 60);

    [Fact]
    public void HoursTo_AfterAnyCharge_GivesItsHoursBack() =>
        Charges.Sample(
            c =>
            {
                var after = Replay.Charge(c.Problem, 0, c.Stored, c.Hours).StoredKwh;
                var hours = ChargingInverse.HoursTo(c.Problem, 0, c.Stored, after);

                // A battery that was full before the end needs fewer hours.
                Assert.Equal(after < 60 - 1e-9 ? c.Hours : Math.Min(c.Hours, hours), hours, 9);
            },
            seed: "0000KqYzTQa1",
            iter: 2000);

    [Fact]
    public void Before_AfterAWholeInterval_GivesTheStartBack() =>
        Charges.Sample(
            c =>
            {
                var after = Replay.Charge(c.Problem, 0, c.Stored, c.Problem.Hours[0]).StoredKwh;
                var before = ChargingInverse.Before(c.Problem, 0, after);

                // From a battery that was full before the end, the latest start is at a lower energy.
                Assert.Equal(after < 60 - 1e-9 ? c.Stored : Math.Min(c.Stored, before), before, 6);
            },
            seed: "0000KqYzTQa1",
            iter: 2000);

    [Fact]
    public void HoursTo_WhereNothingIsStored_IsInfinite()
    {
        var problem = ChargingProblemBuilder.Build(Sample.Question(Sample.Outlet, -18, 0.5, Duration.FromHours(1)));

        Assert.Equal(double.PositiveInfinity, ChargingInverse.HoursTo(problem, 0, 30, 31));
        Assert.Equal(0, ChargingInverse.HoursTo(problem, 0, 31, 30));
    }
}
