using ScheduleOpt.Comparison.BreakEvens;
using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>Searches where the answer between two cells changes.</summary>
/// <remarks>Distance runs the year anew for each place looked at. First cost, share off-peak and price gap need no new year: all else is held,
/// also what the household would do at other prices.</remarks>
internal static class FlipSearch
{
    private const int DistanceSamples = 5;
    private const decimal Indifferent = 0.005m;

    /// <summary>Searches every axis.</summary>
    public static Flips Run(DecisionCase question, DecisionCell first, DecisionCell second, CancellationToken cancellation)
    {
        var (axes, leftOut) = (new List<BreakEvenResult>(), new List<string>());
        Distance();
        Install();
        Prices();
        return new Flips(first.Name, second.Name, axes, leftOut);

        void Distance()
        {
            var kilometres = KilometresOf(question.Year);
            if (kilometres <= 0)
            {
                leftOut.Add("Distance per year: no trip lies in the year.");
                return;
            }

            var axis = BreakEvenAxis.DistancePerYear with { High = Math.Min(BreakEvenAxis.DistancePerYear.High, 3 * kilometres) };
            axes.Add(BreakEvenSearch.Run(
                axis, km => AtDistance(question, first, km / kilometres, cancellation), km => AtDistance(question, second, km / kilometres, cancellation),
                DistanceSamples, Indifferent, cancellation));
        }

        void Install()
        {
            if (question.LifeCycle is not { } asked)
            {
                leftOut.Add("Install cost: life-cycle cost was not asked for.");
                return;
            }

            if (first.Year.SetUp.Name == second.Year.SetUp.Name)
            {
                leftOut.Add("Install cost: both have the same set-up.");
                return;
            }

            // The one that is to be bought: the first, unless that is there already.
            var varied = first.LifeCycle!.Alternative.Investment > 0 ? first : second;
            var curve = BreakEvenCurves.OfInstallCost(varied.LifeCycle!.Alternative.Alternative, asked.Terms);
            Func<double, decimal> firstCost = varied == first ? curve : _ => first.Cost;
            Func<double, decimal> secondCost = varied == first ? _ => second.Cost : curve;
            axes.Add(BreakEvenSearch.Run(
                BreakEvenAxis.InstallCost with { Name = $"Install cost of {varied.Year.SetUp.Name}", Unit = varied.Year.RatePlan.Currency }, firstCost, secondCost, 9, Indifferent, cancellation));
        }

        void Prices()
        {
            var chosen = new[] { first, second }.Select(c => (Cell: c, Prices: TwoPrices.Of(c.Year))).FirstOrDefault(c => c.Prices is not null);
            if (chosen.Prices is not { } two)
            {
                leftOut.Add("Share charged off-peak and price gap: neither has a rate plan with prices by period alone.");
                return;
            }

            var other = chosen.Cell == first ? second : first;
            var plan = chosen.Cell.Year.RatePlan.Name;
            Axis(BreakEvenAxis.OffPeakShare, BreakEvenCurves.OfOffPeakShare(two.Kwh, two.OffPeak, two.OnPeak, two.Fixed));
            Axis(BreakEvenAxis.PriceGap, BreakEvenCurves.OfPriceGap(two.Kwh, two.OffPeakShare, two.OffPeak, two.Fixed));

            // The curves are a year's cash; what life-cycle cost adds to it is held.
            void Axis(BreakEvenAxis axis, Func<double, decimal> curve)
            {
                Func<double, decimal> varied = x => curve(x) + chosen.Cell.InstallPerYear;
                Func<double, decimal> held = _ => other.Year.WholeHouseCost + other.InstallPerYear;
                axes.Add(BreakEvenSearch.Run(
                    axis with { Name = $"{axis.Name} on {plan}", Unit = axis.Unit.Replace("currency", other.Year.RatePlan.Currency, StringComparison.Ordinal) },
                    chosen.Cell == first ? varied : held,
                    chosen.Cell == first ? held : varied,
                    9,
                    Indifferent,
                    cancellation));
            }
        }
    }

    /// <summary>The distance of the trips that lie in the year. [km]</summary>
    public static double KilometresOf(YearCase year)
    {
        var span = new YearSpan(year.Year, year.Zone, NodaTime.Duration.FromMinutes(year.GridMinutes));
        return year.Calendar.Trips.Where(t => t.Departure >= span.Start && t.Return <= span.End).Sum(t => t.Legs.Sum(l => l.Distance.Kilometres));
    }

    private static decimal AtDistance(DecisionCase question, DecisionCell cell, double factor, CancellationToken cancellation)
    {
        var year = question.Year;
        var alone = YearComparison.Run(
            year with
            {
                SetUps = [cell.Year.SetUp],
                RatePlans = cell.Year.HousePlan is { } house ? [house, cell.Year.RatePlan] : [cell.Year.RatePlan],
                HousePlan = cell.Year.HousePlan?.Id,
                Behaviours = cell.Year.Behaviour is { } behaviour ? [behaviour] : [year.Behaviours[0]],
                Calendar = year.Calendar.Scaled(factor),
            },
            null,
            cancellation).Cells.Single(c => c.RatePlan.Id == cell.Year.RatePlan.Id);
        return question.LifeCycle is { } asked
            ? LifeCycleCost.Of(DecisionMoney.Alternative(question, asked, alone), asked.Terms.Study, asked.Terms.Rate).Total
            : alone.WholeHouseCost;
    }
}
