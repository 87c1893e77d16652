using NodaTime;
using ScheduleOpt.Tariffs.Billing;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs;

/// <summary>Works out bills, by the rules of the bill in <c>tariffs/README.md</c>.</summary>
public static class Biller
{
    /// <summary>The bill of a metered series on a rate plan.</summary>
    /// <param name="plan">A plan that <see cref="RatePlanCheck"/> finds in order.</param>
    /// <param name="series">Energy taken from the network.</param>
    /// <param name="readingDates">Dates at whose start the meter was read, in the plan's zone; a billing period runs from one to the next, and from the
    /// start of the series to the first and from the last to its end. None: calendar months.</param>
    /// <param name="input">What is given beside the plan: choices, export, price series, events, carried state. None: nothing.</param>
    /// <returns>One statement per billing period. A period that the series covers in part is that part, by the plan's proration.</returns>
    /// <exception cref="ArgumentException"><see cref="BillInputCheck"/> finds a fault in what is given.</exception>
    public static Bill Bill(RatePlan plan, MeteredSeries series, IReadOnlyList<LocalDate>? readingDates = null, BillInput? input = null)
    {
        input ??= BillInput.None;
        if (BillInputCheck.Faults(plan, series, input) is { Count: > 0 } faults)
        {
            throw new ArgumentException(string.Join(" ", faults.Select(f => $"{f.Path}: {f.Rule} Found: {f.Found}")), nameof(input));
        }

        var layout = new PlanLayout(plan, series.Start, series.End, input);
        var periods = BillingPeriod.Cut(plan.Zone, series.Start, series.End, readingDates);
        var billed = SeriesToBill.Of(layout, periods, series);
        var carried = new CarriedState(input.State);
        var baselines = layout.Plan.Rebates.Count > 0 ? new Baselines(layout, billed.Use.Metered, input.State.RecentUse) : null;
        var warnings = BillWarnings.Of(layout, series);
        var statements = new BillStatement[periods.Count];
        for (var i = 0; i < statements.Length; i++)
        {
            var use = UseSorter.Sort(layout, periods[i], billed.Use);
            statements[i] = new StatementBuilder(layout, use, carried).Build(billed.PaidOut?[i] ?? 0, baselines, warnings);
        }

        return new(plan.Id, plan.Currency, statements, warnings) { State = carried.After(layout, billed.Use.Metered, billed.Bank, input.State) };
    }

    /// <summary>The bills of a household with a car, by what the plan is applied to.</summary>
    /// <param name="plan">The plan for the car: for the whole house, a separate meter or a submeter.</param>
    /// <param name="housePlan">The plan on which the house stays with a separate meter or a submeter; not used for the whole house.</param>
    /// <param name="house">The house without the car.</param>
    /// <param name="car">The car at the meter: the same start, interval and length.</param>
    /// <param name="readingDates">Reading dates of all meters; none for calendar months.</param>
    /// <param name="input">What is given beside the plan; export and house-wide things go with the house's meter.</param>
    /// <param name="houseInput">What is given beside the house's plan, where it has a meter of its own.</param>
    /// <exception cref="ArgumentException">The plan is for a meter of the car's own and no plan for the house is given.</exception>
    public static HouseholdBill Household(
        RatePlan plan,
        RatePlan? housePlan,
        MeteredSeries house,
        MeteredSeries car,
        IReadOnlyList<LocalDate>? readingDates = null,
        BillInput? input = null,
        BillInput? houseInput = null)
    {
        if (plan.Metering == Metering.WholeHouse)
        {
            return new(Bill(plan, house.Plus(car), readingDates, input), null);
        }

        var forHouse = housePlan ?? throw new ArgumentException($"{plan.Name} is for the car's meter: the house needs a plan of its own.", nameof(housePlan));
        return new(Bill(forHouse, house, readingDates, houseInput), Bill(plan, car, readingDates, input));
    }
}
