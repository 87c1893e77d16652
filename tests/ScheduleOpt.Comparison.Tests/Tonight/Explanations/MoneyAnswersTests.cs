using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Comparison.Tonight.Explanations;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Comparison.Tests.Tonight.Explanations;

/// <summary>Answers in money against one-sided differences of a linear programme of the tests' own, and by hand.</summary>
public class MoneyAnswersTests
{
    private const int Instances = 200, DegenerateAtLeast = 50, MostIntervals = 500;
    private const double SameMoney = 2e-5, SameKwh = 2e-5;

    [Fact]
    public void EveryAnswer_OnRandomNights_IsTheDifferenceOfTheProgrammeSolvedAnew()
    {
        var (done, degenerate, answers, nones) = (0, 0, 0, 0);
        var kinds = new HashSet<BindingKind>();
        for (var seed = 0; done < Instances; seed++)
        {
            Assert.True(seed < 20 * Instances, "too few nights that can be met");
            var ties = seed % 2 == 0;
            var question = ties ? Degenerate(RandomCases.Case(seed), seed) : RandomCases.Case(seed);
            var plan = NightPlanner.Plan(new NightQuestion(question));
            var problem = ChargingProblemBuilder.Build(question);
            if (problem.Departures.Length == 0 || problem.Departures[0].Boundary == 0 || problem.Count > MostIntervals || plan.Outcome == NightOutcome.Short)
            {
                continue;
            }

            var end = Math.Min(problem.OrdinaryKwh, new Alternatives(plan).Asked.StoredKwh[0][^1]);
            var asked = AskedAnew.Solve(problem, end);
            if (asked.ShortKwh > SameKwh)
            {
                continue;
            }

            done++;
            degenerate += ties ? 1 : 0;
            var found = NightExplanations.Of(plan)[0].Explanation;
            kinds.UnionWith(found.Bindings.Select(b => b.Kind));
            foreach (var (name, answer, changed) in Changes(question, problem, found))
            {
                var anew = changed is null ? (Bill: 0, ShortKwh: 1) : AskedAnew.Solve(ChargingProblemBuilder.Build(changed), end);
                if (answer is { } money)
                {
                    answers++;
                    Assert.True(anew.ShortKwh <= 5 * SameKwh, $"seed {seed}, {name}: {anew.ShortKwh} kWh unmet");
                    Assert.True(Math.Abs(anew.Bill - asked.Bill - money) < SameMoney, $"seed {seed}, {name}: {money}, anew {anew.Bill - asked.Bill}");
                }
                else
                {
                    nones++;
                    Assert.True(anew.ShortKwh > 1e-7, $"seed {seed}, {name}: no answer, though {anew.Bill - asked.Bill}");
                }
            }

            // Of a convex cost one more is never cheaper than one less saves; above the ordinary limit a higher wish raises the limit too.
            Assert.False(problem.Departures[0].RequiredKwh + 1 <= problem.OrdinaryKwh && found.OneMoreKwh is { Cost: { } cost, Saving: { } saving } && cost < saving - SameMoney, $"seed {seed}");
        }

        TestContext.Current.SendDiagnosticMessage($"{done} nights, {degenerate} degenerate: {answers} answers, {nones} that can't be");
        Assert.True(degenerate >= DegenerateAtLeast, $"{degenerate} degenerate");
        Assert.Superset(new HashSet<BindingKind> { BindingKind.Price, BindingKind.Current, BindingKind.Time, BindingKind.Limit }, kinds);
        Assert.True(answers > 3 * Instances && nones > 20, $"{answers} answers, {nones} none");
    }

    private static IEnumerable<(string Name, double? Answer, ChargingCase? Changed)> Changes(ChargingCase question, ChargingProblem problem, CarExplanation found)
    {
        var first = problem.Departures[0];
        var at = problem.Boundaries[first.Boundary];
        var limit = question.Vehicle.ExtendedLimit.Fraction * problem.UsableKwh;
        ChargingCase? Asking(double kwh) => kwh < 0 || kwh > limit + 1e-5 ? null : question with { RequiredKwh = new Dictionary<Instant, double> { [at] = kwh } };
        yield return ("one more", found.OneMoreKwh!.Cost, Asking(first.RequiredKwh + 1));
        yield return ("one less", -found.OneMoreKwh.Saving, Asking(first.RequiredKwh - 1));

        // Ten points more as a target of the trip, an hour earlier as an hour without charging.
        var more = (first.RequiredKwh / problem.UsableKwh) + 0.1;
        yield return ("ten points more", found.TenPercentMore?.Bill, question.RequiredKwh is not null ? Asking(more * problem.UsableKwh) : more > question.Vehicle.ExtendedLimit.Fraction + 1e-9 ? null : question with
        {
            Calendar = new DrivingCalendar(question.Calendar.Trips.Select(t => t.Departure == at ? t with { Target = StateOfCharge.FromFraction(more) } : t)),
        });
        if (at - Duration.FromHours(1) > question.Start)
        {
            yield return ("an hour earlier", found.AnHourEarlier?.Bill, question with { NoCharging = [new Interval(at - Duration.FromHours(1), at)] });
        }

        if (found.NextCircuit is { } next)
        {
            yield return ("next circuit", next.Extra.Bill, question with { Supply = question.Supply! with { BreakerA = next.BreakerA } });
        }

        if (found.NextBest is { } best)
        {
            var windows = NightPlanner.Plan(new NightQuestion(question)).Cars[0].Windows;
            yield return ("next best", best.Extra.Bill, question with { NoCharging = [new Interval(windows[0].Start, windows[0].End)] });
        }
    }

    /// <summary>Ties in price, and a first departure that asks for just what the car has, just what it can have, or just its ordinary limit.</summary>
    private static ChargingCase Degenerate(ChargingCase question, int seed)
    {
        var prices = new PriceSchedule(question.Prices.Spans.Select(s => s with { ImportPerKwh = s.ImportPerKwh < 0.5m ? 0.10m : 0.30m }), question.End, "USD");
        question = question with { Prices = prices };
        var problem = ChargingProblemBuilder.Build(question);
        if (problem.Departures.Length == 0)
        {
            return question;
        }

        var boundary = problem.Departures[0].Boundary;
        var most = problem.InitialKwh;
        for (var i = 0; i < boundary; i++)
        {
            most = Math.Min(problem.OrdinaryKwh, most + (problem.NetKw[i] * problem.Hours[i]));
        }

        var kwh = (seed / 2 % 3) switch { 0 => problem.InitialKwh, 1 => most, _ => problem.OrdinaryKwh };
        return question with { RequiredKwh = new Dictionary<Instant, double> { [problem.Boundaries[boundary]] = kwh } };
    }

    /// <summary>32 A store 6.9224 kW. From 18:00 the price is 0.30, from 23:00 0.10, from 05:00 0.30; 18 kWh are missing at 07:00 for 80 %: all of it fits in the six cheap hours.</summary>
    private static ChargingCase TwoPrices(double target, double state = 0.5) =>
        Sample.Question(Sample.Receptacle, 20, state, Duration.FromHours(49), Sample.Trip(13, 36, 10, target)) with
        {
            Prices = new PriceSchedule(
                [new(Sample.Monday, 0.30m, "day"), new(Sample.Monday + Duration.FromHours(5), 0.10m, "night"), new(Sample.Monday + Duration.FromHours(11), 0.30m, "day")],
                Sample.Monday + Duration.FromHours(60),
                "USD"),
        };

    [Fact]
    public void AboveTheOrdinaryLimit_EnergyIsTakenLateAtTheDearPrice_AndThePairIsThat()
    {
        // 90 % asks for 54 kWh, 6 more than the ordinary limit: these may be stored from shortly before the departure only, at 0.30 * 7.68 / 6.9224 = 0.3328 a kWh. The horizon ends with the
        // return: one more is still there, and one less is not.
        var plan = NightPlanner.Plan(new NightQuestion(TwoPrices(0.9, 0.2)));
        var reasons = NightExplanations.Of(plan)[0];
        var pair = reasons.Explanation.OneMoreKwh!;
        Assert.Equal(0.30 * 7.68 / 6.9224, pair.Cost!.Value, 5);
        Assert.Equal(0.30 * 7.68 / 6.9224, pair.Saving!.Value, 5);
        Assert.Equal(1, pair.More!.StoredMoreKwh, 4);
        Assert.Equal(-1, pair.Less!.StoredMoreKwh, 4);
        Assert.Equal(BindingKind.Limit, reasons.Explanation.Bindings[0].Kind);
        Assert.Empty(reasons.Help);
        Assert.Equal(0.10 * 7.68 / 6.9224 * 18, NightPlanner.Plan(new NightQuestion(TwoPrices(0.8))).Cost, 2);
        Assert.Contains(reasons.Explanation.WhyEachWindow, w => w.Sentence.Contains("0.333 USD in it"));
    }

    [Fact]
    public void ColdNight_SentenceSaysThatThePriceOfAStoredKwhDecides()
    {
        // Case 46 of the physics checks: 120 V, 12 A; a kWh stored at 0.20 at 70 degF costs 0.257, at 0.10 at 20 degF 0.296.
        var end = Sample.Monday + Duration.FromHours(48);
        var question = Sample.Question(Sample.Outlet, 0, 0.5, Duration.FromHours(48), Sample.Trip(12, 36, 0, target: 34.0 / 60)) with
        {
            Temperatures = new(Sample.Monday, Duration.FromHours(4), [Sample.Celsius(70), .. Enumerable.Repeat(Sample.Celsius(20), 12)]),
            Prices = new PriceSchedule([new(Sample.Monday, 0.20m, "evening"), new(Sample.Monday + Duration.FromHours(4), 0.10m, "night")], end, "USD"),
        };
        var sentence = NightExplanations.Of(NightPlanner.Plan(new NightQuestion(question)))[0].Explanation.WhyEachWindow[0].Sentence;
        Assert.Contains("price * P / r decides", sentence);
        Assert.Contains("0.296 USD", sentence);
    }

    [Fact]
    public void NextBest_LeavesTheFirstWindowOutAndCostsMore()
    {
        var question = TwoPrices(0.8);
        var plan = NightPlanner.Plan(new NightQuestion(question));
        var next = NightExplanations.Of(plan)[0].Explanation.NextBest!;
        var first = plan.Cars[0].Windows[0];
        Assert.True(next.Extra.Bill >= -1e-9);
        Assert.All(next.Windows, w => Assert.True(w.End <= first.Start || w.Start >= first.End));
    }

    [Fact]
    public void EqualPlans_HaveEqualExplanations()
    {
        for (var seed = 0; seed < 20; seed++)
        {
            var plans = Enumerable.Range(0, 2).Select(_ => NightExplanations.Of(NightPlanner.Plan(new NightQuestion(RandomCases.Case(seed))))[0]).ToArray();
            Assert.Equal(plans[0].Explanation.OneMoreKwh, plans[1].Explanation.OneMoreKwh);
            Assert.Equal(plans[0].Explanation.WhyEachWindow, plans[1].Explanation.WhyEachWindow);
            Assert.Equal(plans[0].Explanation.Bindings, plans[1].Explanation.Bindings);
            Assert.Equal(plans[0].Help, plans[1].Help);
        }
    }
}
