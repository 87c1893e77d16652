using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Comparison.SetUps;

/// <summary>A usual set-up, with what a household is asked before its money can be worked out.</summary>
/// <param name="Id">Lower-case words with hyphens; unique and stable.</param>
/// <param name="Name">What it is, in the words of an electrician.</param>
/// <param name="Supply">The supply; none: public charging alone.</param>
/// <param name="FirstCost">The parts of its first cost; empty where what is there is used.</param>
/// <param name="Standby">What it takes while no car charges; none: nothing of the kind. [W]</param>
public sealed record ReadyMadeSetUp(
    string Id, string Name, Supply? Supply, IReadOnlyList<FirstCostItem> FirstCost, PublishedRange? Standby)
{
    /// <summary>The set-up as a comparison takes it.</summary>
    public SetUp SetUp => new(Name, Supply);

    /// <summary>The set-up with the household's own figures; where it has none the middle of the published range, and where there is no range,
    /// as for lifetimes, nothing.</summary>
    /// <param name="inputs">The household's own figures.</param>
    /// <exception cref="ArgumentException">A name that is no part of the first cost, or a figure outside its limits.</exception>
    public ChosenSetUp Choose(SetUpInputs inputs)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        inputs.ThrowIfOutside(FirstCost);
        var (lines, missing) = (new List<ChosenCost>(), new List<string>());
        foreach (var item in FirstCost)
        {
            var own = inputs.FirstCost.TryGetValue(item.Name, out var amount) ? amount : (decimal?)null;
            if (item.IsOptional && own is null && !inputs.Options.Contains(item.Name))
            {
                continue;
            }

            var figure = own is { } value ? new PlanningFigure(value, inputs.Currency, "given by the household", true)
                : item.Range?.Unit == inputs.Currency ? item.Range.Choose(null)
                : null;
            if (figure is null)
            {
                missing.Add(item.Name);
            }
            else
            {
                lines.Add(new ChosenCost(item.Name, figure));
            }
        }

        return new ChosenSetUp(this, lines, inputs.LifetimeYears, Standby?.Choose(inputs.StandbyW), missing);
    }
}
