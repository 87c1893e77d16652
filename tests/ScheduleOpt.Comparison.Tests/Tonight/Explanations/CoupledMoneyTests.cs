using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Comparison.Tonight.Explanations;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tests.Tonight.Explanations;

/// <summary>Answers in money of coupled charges and two cars against one-sided differences: the changed question solved whole by steps 1 and 2, without what the answers leave out or hold.</summary>
public class CoupledMoneyTests
{
    private const int Instances = 200;
    private const double SameMoney = 2e-5;

    [Fact]
    public void EveryAnswer_IsTheDifferenceOfTheQuestionSolvedWhole()
    {
        var (answers, zeros, degenerate, twoCars) = (0, 0, 0, 0);
        for (var seed = 0; seed < Instances; seed++)
        {
            var ties = seed % 2 == 0;
            var question = CoupledNights.Of(seed, ties);
            var plan = NightPlanner.Plan(question);
            if (plan.Route == SolveRoute.Shares || plan.Outcome == NightOutcome.Short)
            {
                continue;
            }

            (degenerate, twoCars) = (degenerate + (ties ? 1 : 0), twoCars + (plan.Cars.Count - 1));
            var found = NightExplanations.Of(plan);
            var asked = Whole(plan, question.Case);
            for (var car = 0; car < plan.Cars.Count; car++)
            {
                var (own, explanation) = (plan.Cars[car], found[car].Explanation);
                var (at, required) = (own.Departures[0].Departure, own.Departures[0].RequiredKwh);
                foreach (var (name, answer, kwh) in new[] { ("more", explanation.OneMoreKwh!.Cost, 1.0), ("less", -explanation.OneMoreKwh.Saving, -1.0), ("ten points", explanation.TenPercentMore?.Bill, 6.0) })
                {
                    if (answer is not { } money)
                    {
                        continue;
                    }

                    answers++;
                    zeros += money == 0 ? 1 : 0;
                    var c = car;
                    var changed = question.Case with
                    {
                        Cars = [.. question.Case.Cars.Select((one, k) => k != c ? one : one with { Case = one.Case with { RequiredKwh = new Dictionary<Instant, double> { [at] = required + kwh } } })],
                    };
                    var anew = Whole(plan, changed).Bill - asked.Bill;
                    Assert.True(Math.Abs(anew - money) < SameMoney, $"seed {seed}, car {car}, {name}: {money}, anew {anew}");
                }
            }
        }

        Assert.True(answers > Instances && zeros > Instances / 8 && degenerate > 50 && twoCars > Instances / 4, $"{answers} answers, {zeros} zero, {degenerate} degenerate, {twoCars} of two cars");
    }

    private static HouseholdLeast Whole(NightPlan plan, HouseholdCase question)
    {
        var problem = HouseholdProblemBuilder.Build(question);
        return HouseholdLeast.Of(problem with
        {
            Cars = [.. problem.Cars.Select((car, c) => car with
            {
                Problem = car.Problem with { EndValuePerKwh = 0, FinalKwh = Math.Min(car.Problem.OrdinaryKwh, plan.Schedule.Cars[c].StoredKwh[^1]) - 1e-7 },
            })],
        });
    }
}
