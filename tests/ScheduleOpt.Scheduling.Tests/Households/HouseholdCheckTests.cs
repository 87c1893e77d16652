using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Tests.Options;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>The check accepts what holds and names what does not.</summary>
public class HouseholdCheckTests
{
    [Fact]
    public void EachCarAlone_WithNothingShared_Passes()
    {
        var question = Houses.Two(second: Nights.Plain(celsius: -5));
        var problem = HouseholdProblemBuilder.Build(question);
        Assert.Empty(HouseholdCheck.Findings(problem, Houses.EachAlone(problem), question));
    }

    [Fact]
    public void WarmingAndQuietHours_Pass()
    {
        var question = Houses.One(Nights.Plain(-10) with
        {
            WarmUp = new(Duration.FromMinutes(30), 2, 1, 0),
            NoCharging = [new(Nights.At(24), Nights.At(28))],
            CurrentLimits = [new(new(Nights.At(23), Nights.At(24)), 12)],
        });
        var problem = HouseholdProblemBuilder.Build(question);
        Assert.Empty(HouseholdCheck.Findings(problem, Houses.EachAlone(problem), question));
    }

    [Fact]
    public void TwoAtOnceOnOneCircuit_IsFound()
    {
        // Both wait for the cheap night and take 32 A each.
        var question = Houses.Two(sharedA: 40);
        var problem = HouseholdProblemBuilder.Build(question);
        Assert.Contains("shared circuit", Assert.Single(HouseholdCheck.Findings(problem, Houses.EachAlone(problem), question)));
    }

    [Fact]
    public void OneAfterTheOtherInOneInterval_IsNotTwoAtOnce_ButOneSecondTogetherIs()
    {
        var problem = HouseholdProblemBuilder.Build(Houses.Two(sharedA: 32));
        var middle = Nights.At(23, 7) + Duration.FromSeconds(30);
        HouseholdSchedule Hand(Instant change) => Houses.Schedule(problem, [Part(problem, 0, Nights.At(23), change), Part(problem, 1, middle, Nights.At(23, 15))]);
        Assert.Empty(HouseholdCheck.Findings(problem, Hand(middle)));
        Assert.Contains(HouseholdCheck.Findings(problem, Hand(middle + Duration.FromSeconds(1))), f => f.Contains("shared circuit"));
    }

    [Fact]
    public void ImportAboveTheLimit_IsFound_UnlessTheHouseAlonePassesIt()
    {
        var question = Houses.One() with { ImportLimitKw = 9, House = new PowerForecast(Nights.At(18), Duration.FromDays(3), [1]) };
        var problem = HouseholdProblemBuilder.Build(question);
        Assert.Empty(HouseholdCheck.Findings(problem, Houses.EachAlone(problem), question));
        var tight = HouseholdProblemBuilder.Build(question with { ImportLimitKw = 8 });
        Assert.Contains(HouseholdCheck.Findings(tight, Houses.EachAlone(tight)), f => f.Contains("its limit is 8 kW"));
        var above = problem with { ImportLimitKw = 0.5 };
        var none = Houses.Schedule(above, [Houses.OfShares(above.Cars[0], new double[above.Count], new double[above.Count], [])]);
        Assert.Empty(HouseholdCheck.Findings(above, none));
    }

    [Theory]
    [InlineData("windows", "windows; 1 are allowed")]
    [InlineData("on", "less than")]
    [InlineData("off", "pause before")]
    [InlineData("whole", "whole number")]
    [InlineData("fixed", "can have")]
    [InlineData("steps", "steps last")]
    [InlineData("stepCurrent", "a step has")]
    [InlineData("second", "whole seconds")]
    [InlineData("cost", "The cost is")]
    [InlineData("bill", "The bill is")]
    [InlineData("objective", "The objective is")]
    [InlineData("stored", "stored energy")]
    [InlineData("rating", "continuous rating")]
    public void Fault_IsNamed(string fault, string words)
    {
        // Two hours apart: 23:00Z to 23:30Z, and 00:00Z to 02:00Z.
        var question = Houses.One();
        var problem = HouseholdProblemBuilder.Build(question);
        var car = Windows(problem, (Nights.At(23), Nights.At(23, 30)), (Nights.At(24), Nights.At(26)));
        var schedule = Houses.Schedule(problem, [car]);
        Assert.Empty(HouseholdCheck.Findings(problem, schedule, question));

        RunningRules rules = fault switch
        {
            "windows" => new() { MostWindows = 1 },
            "on" => new() { LeastOn = Duration.FromMinutes(60) },
            "off" => new() { LeastOff = Duration.FromMinutes(60) },
            "whole" => new() { Adjustable = true, WholeAmperes = true },
            _ => new(),
        };
        problem = problem with { Cars = [problem.Cars[0] with { Rules = rules }] };
        switch (fault)
        {
            case "whole":
            case "fixed":
                car = Windows(problem, 20.5, (Nights.At(23), Nights.At(24)));
                schedule = Houses.Schedule(problem, [car]);
                break;
            case "steps":
                schedule = schedule with { Cars = [car with { Steps = [car.Steps[0]] }] };
                break;
            case "stepCurrent":
                schedule = schedule with { Cars = [car with { Steps = [car.Steps[0] with { CurrentA = 16 }, car.Steps[1]] }] };
                break;
            case "second":
                schedule = schedule with { Cars = [car with { Steps = [car.Steps[0] with { End = car.Steps[0].End - Duration.FromMilliseconds(500) }, car.Steps[1]] }] };
                break;
            case "cost":
                schedule = schedule with { Cost = schedule.Cost + 1e-4 };
                break;
            case "bill":
                schedule = schedule with { BillCost = schedule.BillCost - 1e-4 };
                break;
            case "objective":
                schedule = schedule with { Objective = schedule.Objective + 1e-4 };
                break;
            case "stored":
                schedule = schedule with { Cars = [car with { StoredKwh = [.. car.StoredKwh.Select(e => e + 1e-4)] }] };
                break;
            case "rating":
                question = question with { Cars = [question.Cars[0] with { Case = question.Cars[0].Case with { Supply = question.Cars[0].Case.Supply! with { BreakerA = 30 } } }] };
                break;
            default:
                break;
        }

        Assert.Contains(HouseholdCheck.Findings(problem, schedule, question), f => f.Contains(words));
    }

    [Fact]
    public void TermsAreInTheCost()
    {
        var demand = new DemandTerm("peak", Houses.January, true, [Houses.January], Duration.FromMinutes(15), false, 0, 0, 0, [new(null, 3)], null);
        var problem = HouseholdProblemBuilder.Build(Houses.One(terms: [demand]));
        var schedule = Houses.EachAlone(problem);
        Assert.Empty(HouseholdCheck.Findings(problem, schedule));
        Assert.NotEmpty(HouseholdCheck.Findings(problem with { Terms = [] }, schedule));
        Assert.NotEmpty(HouseholdCheck.Findings(problem with { Terms = [demand with { Blocks = [new(null, 3.001m)] }] }, schedule));
    }

    private static CarSchedule Windows(HouseholdProblem problem, params (Instant Start, Instant End)[] windows) => Windows(problem, 32, windows);

    private static CarSchedule Windows(HouseholdProblem problem, double current, params (Instant Start, Instant End)[] windows)
    {
        var shares = problem.Boundaries[..^1].Select(b => windows.Any(w => b >= w.Start && b < w.End) ? 1.0 : 0).ToArray();
        var currents = shares.Select(s => s > 0 ? current : 0).ToArray();
        return Houses.OfShares(problem.Cars[0], shares, currents, [.. windows.Select(w => new CurrentStep(w.Start, w.End, current))]);
    }

    private static CarSchedule Part(HouseholdProblem problem, int car, Instant start, Instant end)
    {
        var i = Array.IndexOf(problem.Boundaries, Nights.At(23));
        var (shares, currents) = (new double[problem.Count], new double[problem.Count]);
        shares[i] = (end - start).TotalHours / problem.Hours[i];
        currents[i] = 32;
        return Houses.OfShares(problem.Cars[car], shares, currents, [new CurrentStep(start, end, 32)]);
    }
}
