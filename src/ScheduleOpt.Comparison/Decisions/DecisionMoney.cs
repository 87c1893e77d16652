using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.SetUps;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>Puts the money of set-ups beside the cells of a year.</summary>
internal static class DecisionMoney
{
    /// <summary>The cells with their money and their places.</summary>
    public static DecisionCell[] Of(DecisionCase question, IReadOnlyList<YearCell> cells)
    {
        if (question.LifeCycle is not { } asked)
        {
            return [.. cells.Select(c => new DecisionCell(c, null, null, c.Rank))];
        }

        var alternatives = cells
            .Where(c => OfferedFor(question, c).Chosen.Missing.Count == 0)
            .Select(c => Alternative(question, asked, c))
            .ToArray();
        var compared = LifeCycleComparison.Of(alternatives, question.Today!.Words, asked.Terms);
        var atRate = compared.AtDiscountRate.ToDictionary(r => r.Alternative.Alternative.Name);
        var atLoan = compared.AtLoanRate.ToDictionary(r => r.Alternative.Alternative.Name);
        var ranks = new Dictionary<decimal, int>();
        foreach (var (result, i) in compared.Ranked.Select((r, i) => (r, i)))
        {
            ranks.TryAdd(result.Alternative.Total, i + 1);
        }

        return
        [
            .. cells.Select(c =>
            {
                var result = atRate.GetValueOrDefault(CellName.Of(c).Words);
                return new DecisionCell(
                    c, result, atLoan.GetValueOrDefault(CellName.Of(c).Words), result is null ? null : ranks[result.Alternative.Total]);
            }),
        ];
    }

    /// <summary>A cell as an alternative.</summary>
    public static LifeCycleAlternative Alternative(DecisionCase question, LifeCycleQuestion asked, YearCell cell)
    {
        var offered = OfferedFor(question, cell);
        return SetUpAlternative.Of(
            CellName.Of(cell).Words, cell, offered.Chosen, asked.Terms.Study, asked.EnergyPrices, asked.EnergyPrices) with
        {
            Incentives = offered.Incentives,
        };
    }

    /// <summary>The money of a cell's set-up.</summary>
    public static OfferedSetUp OfferedFor(DecisionCase question, YearCell cell) => question.SetUps.First(s => s.SetUp.Name == cell.SetUp.Name);
}
