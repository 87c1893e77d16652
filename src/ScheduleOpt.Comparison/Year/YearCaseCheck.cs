using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year;

/// <summary>Finds what contradicts itself in a comparison. Readers of requests ask first: a household never sees an exception.</summary>
public static class YearCaseCheck
{
    /// <summary>The most weather years of a case.</summary>
    public const int MostWeatherYears = 5;

    /// <summary>Every contradiction, as a sentence; empty for a case that can be run.</summary>
    public static IReadOnlyList<string> Contradictions(YearCase question)
    {
        ArgumentNullException.ThrowIfNull(question);
        var found = new List<string>();
        Require(question.SetUps.Count > 0, "A comparison needs at least one set-up.");
        Require(Unique(question.SetUps.Select(s => s.Name)), "Each set-up must have a name of its own.");
        Require(question.RatePlans.Any(p => p.Metering == Metering.WholeHouse), "A comparison needs at least one whole-house rate plan.");
        Require(Unique(question.RatePlans.Select(p => p.Id)), "Each rate plan must occur once.");
        Require(question.RatePlans.Select(p => p.Currency).Distinct().Count() <= 1, "All rate plans must be in one currency.");
        Require(question.Behaviours.Count > 0, "A comparison needs at least one behaviour.");
        Require(Unique(question.Behaviours.Select(b => b.Name)), "Each behaviour must occur once.");
        Require(question.AwayPricePerKwh >= 0, "The price of public charging must be zero or more.");
        Require(IntervalGrid.StepsInMinutes.Contains(question.GridMinutes), "The grid step must be 5, 15, 30 or 60 min.");
        Require(question.FurtherWeather.Count < MostWeatherYears, FormattableString.Invariant($"A comparison has at most {MostWeatherYears} weather years."));
        Require(
            question.HousePlan is null || question.RatePlans.Any(p => p.Id == question.HousePlan && p.Metering == Metering.WholeHouse),
            "The house's rate plan must be one of the whole-house rate plans.");
        Require(
            question.Behaviours.OfType<LeastCostByNight>().All(b =>
                b.Errors.IsInRange && b.HorizonDays is >= LeastCostByNight.LeastHorizonDays and <= LeastCostByNight.MostHorizonDays),
            "The figures of a forecast error and the days that a plan looks ahead must lie in their ranges.");
        return found;

        void Require(bool holds, string sentence)
        {
            if (!holds)
            {
                found.Add(sentence);
            }
        }
    }

    internal static void ThrowIfContradictory(YearCase question)
    {
        var found = Contradictions(question);
        if (found.Count > 0)
        {
            throw new ArgumentException(string.Join(' ', found), nameof(question));
        }
    }

    private static bool Unique(IEnumerable<string> names) => names.GroupBy(n => n, StringComparer.Ordinal).All(g => g.Count() == 1);
}
