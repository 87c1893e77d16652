using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.SetUps;

/// <summary>Turns a cell of the year and the chosen figures of its set-up into an alternative for life-cycle cost.</summary>
public static class SetUpAlternative
{
    /// <summary>Each year as the cell's year: whole-house bill, away charging with the end correction, standby of the unit.</summary>
    /// <remarks>Standby is priced at the car's mean price per kWh on this plan; where nothing is charged at home it is left out. Its
    /// charging hours are estimated at the circuit's continuous rating. A lifetime that is
    /// not given counts as the study period: no replacement, nothing left.</remarks>
    /// <param name="name">What the alternative is called.</param>
    /// <param name="cell">The cell.</param>
    /// <param name="chosen">The figures of its set-up.</param>
    /// <param name="study">The study period.</param>
    /// <param name="home">How the price at home moves.</param>
    /// <param name="away">How the price of away charging moves.</param>
    /// <exception cref="ArgumentException">A part of the first cost is missing.</exception>
    public static LifeCycleAlternative Of(
        string name, YearCell cell, ChosenSetUp chosen, StudyPeriod study, EnergyPricePath home, EnergyPricePath away)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(chosen);
        ArgumentNullException.ThrowIfNull(study);
        if (chosen.Missing.Count > 0)
        {
            throw new ArgumentException($"No first cost is known for: {string.Join(", ", chosen.Missing)}.", nameof(chosen));
        }

        var energy = new List<EnergyLine>
        {
            new("bill of house and car", cell.BillWithCar.Total, home),
            new("away charging", cell.Away.Cost + cell.EndCorrection.Cost, away),
        };
        if (cell.Energy.HomeWallKwh > 0 && chosen.Standby is not null)
        {
            var perKwh = cell.CarShare / (decimal)cell.Energy.HomeWallKwh;
            var power = chosen.ReadyMade.Supply!.VoltsAcrossPhases * chosen.ReadyMade.Supply.ContinuousRatingA / 1000;
            var hours = power > 0 ? cell.Energy.HomeWallKwh / power : 0;
            energy.Add(new EnergyLine("standby of the unit", chosen.StandbyKwhPerYear(hours) * perKwh, home));
        }

        var alternative = new LifeCycleAlternative { Name = name, Energy = energy };
        foreach (var cost in chosen.Costs)
        {
            alternative = alternative.WithEquipment(
                cost.Name, cost.Figure.Value, LifeOf(cost.Name, chosen, study), study, cost.Figure.Note);
        }

        return alternative;
    }

    // The unit wears out; circuit, permit and panel outlast it, and nothing is claimed of what is left of them.
    private static int LifeOf(string part, ChosenSetUp chosen, StudyPeriod study) =>
        part == ReadyMadeSetUps.UnitPart ? chosen.LifetimeYears ?? study.Years : study.Years;
}
