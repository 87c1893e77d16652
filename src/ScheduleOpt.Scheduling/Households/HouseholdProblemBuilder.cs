using NodaTime;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>Cuts a household's question into intervals: one grid for all cars, cut also where load, solar, carbon price and the hours and averages of terms change.</summary>
public static class HouseholdProblemBuilder
{
    // Of a car without a supply, which takes no current anyway.
    private const double NominalVolts = 230;

    /// <summary>Builds the problem.</summary>
    /// <exception cref="ArgumentException">No car, cars of different spans or grid steps, two of one name, or a car's question is out of order.</exception>
    public static HouseholdProblem Build(HouseholdCase question) => Build(question, null);

    /// <summary>Builds the problem.</summary>
    /// <param name="question">The question.</param>
    /// <param name="keepMargins">Whether each departure of each car may have its finish margin; none: all.</param>
    internal static HouseholdProblem Build(HouseholdCase question, bool[][]? keepMargins)
    {
        ArgumentNullException.ThrowIfNull(question);
        Require(question);
        var first = question.Cars[0].Case;
        Instant[] cuts =
        [
            .. question.Cars.SelectMany(c => ChargingProblemBuilder.Cuts(Limited(c, question))),
            .. HouseholdCuts.Of(question),
        ];
        ChargingProblem[] problems = [.. question.Cars.Select((c, k) => Build(c, question, cuts, keepMargins?[k]))];
        var boundaries = problems[0].Boundaries;
        var hours = problems[0].Hours;
        var house = OnGrid(boundaries, question.House);
        var solar = OnGrid(boundaries, question.Solar);
        var cars = question.Cars.Select((c, k) => CarOf(c, problems[k])).ToArray();
        var shared = question.SharedCircuitA is { } most && cars.Length > 1
            ? new SharedCircuit([.. Enumerable.Range(0, cars.Length)], most) { TakenA = WarmingA(cars) }
            : null;
        var warming = WarmingKw(problems);
        var withWarming = warming is null ? house : [.. house.Zip(warming, (h, w) => h + w)];
        var problem = new HouseholdProblem
        {
            Boundaries = boundaries,
            Hours = hours,
            Cars = cars,
            HouseKw = withWarming,
            SolarKw = solar,
            ImportPrice = PricesOnGrid(boundaries, first.Prices.Spans, s => s.ImportPerKwh),
            ExportPrice = question.Solar is null ? new double[hours.Length] : PricesOnGrid(boundaries, first.Prices.Spans, s => s.ExportPerKwh),
            CarbonPrice = question.CarbonPrice is { Count: > 0 } carbon ? PricesOnGrid(boundaries, carbon, s => s.ImportPerKwh) : new double[hours.Length],
            ImportLimitKw = question.ImportLimitKw,
            Circuits = shared is null ? [] : [shared],
            Terms = OfTheHouse(first.Prices.Terms, boundaries, hours, house, solar),
        };
        problem = warming is null ? problem : WarmUpInBill.Of(problem, house, warming);
        return JointLimits.Apply(problem, keep => [.. question.Cars.Select((c, k) => problems[k].Departures.Select(d => d.MarginKept).SequenceEqual(keep[k]) ? problems[k] : Build(c, question, cuts, keep[k]))]);
    }

    private static void Require(HouseholdCase question)
    {
        if (question.Cars.Count == 0)
        {
            throw new ArgumentException("A household's question needs a car.", nameof(question));
        }

        var first = question.Cars[0].Case;
        if (question.Cars.Any(c => c.Case.Start != first.Start || c.Case.End != first.End || c.Case.GridStep != first.GridStep))
        {
            throw new ArgumentException("All cars of a household have the same start, end and grid step.", nameof(question));
        }

        if (question.Cars.Select(c => c.Name).Distinct().Count() < question.Cars.Count)
        {
            throw new ArgumentException("The cars of a household have different names.", nameof(question));
        }
    }

    /// <summary>A car's question under its share of the household: alone on a circuit for several, its limit is a limit of the car.</summary>
    private static ChargingCase Limited(CarCase car, HouseholdCase question) => question.SharedCircuitA is { } most
        ? car.Case with { CurrentLimits = [.. car.Case.CurrentLimits, new CurrentLimit(new Interval(car.Case.Start, car.Case.End), most)] }
        : car.Case;

    private static ChargingProblem Build(CarCase car, HouseholdCase question, Instant[] cuts, bool[]? keepMargin) =>
        ChargingProblemBuilder.Build(Limited(car, question) with { Cuts = cuts }, car.Rules.WholeAmperes, keepMargin);

    private static HouseholdCar CarOf(CarCase car, ChargingProblem problem) => new(
        car.Name,
        problem,
        car.Case.Supply?.VoltsAcrossPhases ?? NominalVolts,
        problem.MostA,
        car.Rules.WholeAmperes ? Math.Ceiling(car.Case.Vehicle.MinimumCurrentA - 1e-9) : car.Case.Vehicle.MinimumCurrentA,
        car.Rules);

    /// <summary>Terms beside the house as it is without cars: an average of its own that is above any that the rate plan expects is there without charging, too.</summary>
    private static PriceTerm[] OfTheHouse(IReadOnlyList<PriceTerm> terms, Instant[] boundaries, double[] hours, double[] house, double[] solar)
    {
        double[] import = [.. house.Zip(solar, (h, s) => Math.Max(0, h - s))];
        return [.. terms.Select(t => t is DemandTerm ? TermBill.After(t, boundaries, hours, import, new double[hours.Length]) : t)];
    }

    private static double[]? WarmingKw(ChargingProblem[] problems)
    {
        double[]? sum = null;
        foreach (var warm in problems.Select(p => p.WarmUpKw).OfType<double[]>())
        {
            sum ??= new double[warm.Length];
            for (var i = 0; i < sum.Length; i++)
            {
                sum[i] += warm[i];
            }
        }

        return sum;
    }

    private static double[]? WarmingA(HouseholdCar[] cars)
    {
        double[]? sum = null;
        foreach (var car in cars.Where(c => c.Problem.WarmUpKw is not null))
        {
            sum ??= new double[car.Problem.Count];
            for (var i = 0; i < sum.Length; i++)
            {
                sum[i] += car.Problem.WarmUpKw![i] * 1000 / car.VoltsAcrossPhases;
            }
        }

        return sum;
    }

    private static double[] OnGrid(Instant[] boundaries, PowerForecast? forecast)
    {
        var values = new double[boundaries.Length - 1];
        for (var i = 0; forecast is not null && i < values.Length; i++)
        {
            var at = (long)Math.Floor((boundaries[i] - forecast.Start) / forecast.Interval);
            values[i] = at >= 0 && at < forecast.AverageKw.Count ? forecast.AverageKw[(int)at] : 0;
        }

        return values;
    }

    /// <summary>A price on the grid; before the first span its price holds.</summary>
    private static double[] PricesOnGrid(Instant[] boundaries, IReadOnlyList<PriceSpan> spans, Func<PriceSpan, decimal> price)
    {
        var values = new double[boundaries.Length - 1];
        var at = 0;
        for (var i = 0; i < values.Length; i++)
        {
            while (at + 1 < spans.Count && spans[at + 1].Start <= boundaries[i])
            {
                at++;
            }

            values[i] = (double)price(spans[at]);
        }

        return values;
    }
}
