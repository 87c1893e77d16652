using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.SetUps;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>A set-up of a decision with its money.</summary>
/// <param name="SetUp">The set-up as the year knows it.</param>
/// <param name="Chosen">The figures of its first cost.</param>
/// <param name="Incentives">What is granted for it.</param>
public sealed record OfferedSetUp(SetUp SetUp, ChosenSetUp Chosen, IReadOnlyList<Incentive> Incentives)
{
    private static readonly string[] Parts =
    [
        ReadyMadeSetUps.UnitPart, ReadyMadeSetUps.WiringPart, ReadyMadeSetUps.PermitPart, ReadyMadeSetUps.PanelPart, ReadyMadeSetUps.ServicePart,
    ];

    /// <summary>A household's own set-up: only the parts of the first cost that it gives, or says it needs, count.</summary>
    public static ReadyMadeSetUp Own(string name, Supply? supply) =>
        new("", name, supply, supply is null ? [] : [.. Parts.Select(p => new FirstCostItem(p, null, true))], null);

    /// <summary>A set-up that stands there already: it costs nothing more to have it, unless the household gives a figure.</summary>
    public static ReadyMadeSetUp AlreadyThere(ReadyMadeSetUp setUp)
    {
        ArgumentNullException.ThrowIfNull(setUp);
        return setUp with { FirstCost = [.. setUp.FirstCost.Select(i => i with { IsOptional = true })] };
    }
}
