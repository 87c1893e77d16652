using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>The answer for the coming nights.</summary>
/// <remarks>Money is worked out in binary numbers here and rounded once where it is written. Everything is after the replay with the full
/// physics unless it says otherwise. It is what charging, and warming before departures, add to the household's bill: end values and ageing prices are never in it.</remarks>
public sealed record NightPlan
{
    /// <summary>The question.</summary>
    public required NightQuestion Question { get; init; }

    /// <summary>The problem that was solved.</summary>
    public required HouseholdProblem Problem { get; init; }

    /// <summary>Its least-cost runnable schedule, before the taper.</summary>
    public required HouseholdSchedule Schedule { get; init; }

    /// <summary>The cars, in the question's order.</summary>
    public required IReadOnlyList<CarPlan> Cars { get; init; }

    /// <summary>What the schedule adds to the bill over the horizon, energy at stops included. [currency]</summary>
    public required double Cost { get; init; }

    /// <summary>What its emissions weigh beside the bill, at the carbon price. [currency] 0 where there is none.</summary>
    public required double CarbonCost { get; init; }

    /// <summary>What a kWh of charging costs in each interval at home, terms of the bill left out: the import price, or where solar energy is used a mean with its credit. [currency/kWh]</summary>
    public required double[] EnergyPrice { get; init; }

    /// <summary>What charging on arrival adds to the bill over the same horizon, within the same limits. [currency]</summary>
    public required double CostOnArrival { get; init; }

    /// <summary>Why the schedule costs more than charging on arrival, in one sentence; none where it costs no more.</summary>
    public string? DearerThanArrival { get; init; }

    /// <summary>Energy stored at the horizon's end by charging on arrival beyond what the schedule stores. [kWh]</summary>
    public required double ExtraEndKwhOnArrival { get; init; }

    /// <summary>Trip shortfall by charging on arrival beyond that of the schedule. [kWh]</summary>
    public required double ExtraAwayKwhOnArrival { get; init; }

    /// <summary>What no schedule that ends with as much stored, and leaves no more unmet than was planned before the taper, can go below, carbon price included. [currency] A replay that leaves more unmet may cost less.</summary>
    public required double BoundCost { get; init; }

    /// <summary>Cost, carbon cost included, above the bound. [currency] Zero or more.</summary>
    public double Gap => Math.Max(0, Cost + CarbonCost - BoundCost);

    /// <summary>What the search left between its schedule and the bound: before the taper, and before windows of an earlier answer are kept. [currency] Zero or more.</summary>
    public required double SearchGap { get; init; }

    /// <summary>Whether the gap is within 0.1 % of the bound or 0.1 cent.</summary>
    public bool GapIsFine => Gap <= FineGap;

    /// <summary>How the schedule was found.</summary>
    public SolveRoute Route => Schedule.Route;

    /// <summary>Whether the search ended above a fine gap, 0.1 % of the bound or 0.1 cent: the best it had by then is given.</summary>
    /// <remarks>The search measures its gap beside a bound with the value of what is stored at the end in it; here it is held against the bound that is stated too. What the taper adds is not the search's.</remarks>
    public bool LimitReached => Schedule.LimitReached || SearchGap > FineGap;

    /// <summary>What the owner must know about this answer.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>What the checks found; empty as it should be. If not, the plan charges on arrival instead.</summary>
    public required IReadOnlyList<string> CheckFindings { get; init; }

    /// <summary>Ready where every car is.</summary>
    public NightOutcome Outcome => Cars.Any(c => c.Outcome == NightOutcome.Short) ? NightOutcome.Short : NightOutcome.Ready;

    private double FineGap => Math.Max(HouseholdScheduler.FineGapShare * Math.Abs(BoundCost), HouseholdScheduler.FineGapAtLeast);
}
