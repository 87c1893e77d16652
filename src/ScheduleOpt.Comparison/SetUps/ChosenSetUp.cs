namespace ScheduleOpt.Comparison.SetUps;

/// <summary>One part of a first cost with the figure that is planned with.</summary>
/// <param name="Name">What is bought.</param>
/// <param name="Figure">The figure.</param>
public sealed record ChosenCost(string Name, PlanningFigure Figure);

/// <summary>A ready-made set-up with its figures chosen.</summary>
/// <param name="ReadyMade">The set-up.</param>
/// <param name="Costs">The parts of its first cost that are counted.</param>
/// <param name="LifetimeYears">How long the equipment lasts; none: as long as the study period, which the report must say. [a]</param>
/// <param name="Standby">What it takes while no car charges. [W]</param>
/// <param name="Missing">Parts of the first cost for which there is neither an own figure nor a published range in the household's
/// currency; while one is missing the set-up's money must not be ranked.</param>
public sealed record ChosenSetUp(
    ReadyMadeSetUp ReadyMade, IReadOnlyList<ChosenCost> Costs, int? LifetimeYears, PlanningFigure? Standby, IReadOnlyList<string> Missing)
{
    /// <summary>Hours of an average year. [h]</summary>
    private const decimal HoursPerYear = 8766;

    /// <summary>The first cost. [currency]</summary>
    public decimal FirstCost => Costs.Sum(c => c.Figure.Value);

    /// <summary>Whether any part is a planning figure.</summary>
    public bool HasPlanningFigures => Costs.Any(c => !c.Figure.IsOwn);

    /// <summary>What the report says beside the first cost; empty where every figure is the household's own.</summary>
    public string Note => HasPlanningFigures ? PublishedRanges.NoSingleAverage : "";

    /// <summary>Energy that the unit takes while no car charges. [kWh a year]</summary>
    /// <example>5 W without a charging hour: 44 kWh.</example>
    /// <param name="chargingHours">Hours a year in which a car charges. [h]</param>
    public decimal StandbyKwhPerYear(double chargingHours) =>
        (Standby?.Value ?? 0) * Math.Max(0, HoursPerYear - (decimal)chargingHours) / 1000;
}
