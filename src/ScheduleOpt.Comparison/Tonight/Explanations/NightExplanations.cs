namespace ScheduleOpt.Comparison.Tonight.Explanations;

/// <summary>Explains a plan: what binds, why each window is where it is, what changes would cost, and what would cure shortfalls.</summary>
public static class NightExplanations
{
    /// <summary>Reasons and help for each car, in order.</summary>
    /// <param name="plan">A plan that passed its checks.</param>
    public static IReadOnlyList<CarReasons> Of(NightPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var alternatives = new Alternatives(plan);
        return [.. plan.Cars.Select((own, car) => new CarReasons(Of(alternatives, own, car), FeasibilityHelp.Of(alternatives, car)))];
    }

    private static CarExplanation Of(Alternatives alternatives, CarPlan own, int car)
    {
        var money = new MoneyAnswers(alternatives, car);
        var next = money.OneMore();
        return new(
            DepartureBindings.Of(alternatives, car, money, next),
            WindowReasons.Of(alternatives.Plan, own),
            money.NextBest(),
            next,
            money.AnHourEarlier(),
            money.TenPercentMore(),
            money.NextCircuit());
    }
}
