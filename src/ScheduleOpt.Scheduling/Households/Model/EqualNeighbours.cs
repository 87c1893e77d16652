using NodaTime;

namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>Whether the intervals before and after a boundary are equal in everything but the averages of demand terms.</summary>
internal sealed class EqualNeighbours
{
    private readonly HouseholdModel model;
    private readonly MergeCondition ignored;
    private readonly HashSet<int> trips = [];
    private readonly HashSet<int> leastBillEdges = [];
    private readonly bool[][] uses;

    public EqualNeighbours(HouseholdModel model, MergeCondition ignored)
    {
        this.model = model;
        this.ignored = ignored;
        foreach (var departure in model.Problem.Cars.SelectMany(c => c.Problem.Departures))
        {
            trips.Add(departure.Boundary);
            trips.Add(departure.ReturnBoundary);
        }

        foreach (var least in model.LeastBills)
        {
            AddEdges(least.BillingPeriod);
        }

        uses = [.. model.Terms.OfType<UseModel>().Select(t => t.Counts)];
    }

    public bool At(int boundary)
    {
        var (problem, a, b) = (model.Problem, boundary - 1, boundary);
        return Same(MergeCondition.ImportPrice, problem.ImportPrice[a], problem.ImportPrice[b])
            && Same(MergeCondition.ExportPrice, problem.ExportPrice[a], problem.ExportPrice[b])
            && Same(MergeCondition.CarbonPrice, problem.CarbonPrice[a], problem.CarbonPrice[b])
            && Same(MergeCondition.HouseLoad, problem.HouseKw[a], problem.HouseKw[b])
            && Same(MergeCondition.Solar, problem.SolarKw[a], problem.SolarKw[b])
            && Holds(MergeCondition.Flow, !model.ChoosesFlow[a] && !model.ChoosesFlow[b])
            && Holds(MergeCondition.Trip, !trips.Contains(boundary))
            && Holds(MergeCondition.BillingPeriod, !leastBillEdges.Contains(boundary))
            && Holds(MergeCondition.UseHours, uses.All(counts => counts[a] == counts[b]))
            && SameCars(a, b);
    }

    private bool SameCars(int a, int b)
    {
        foreach (var car in model.Cars)
        {
            var problem = car.Car.Problem;
            var standing = problem.Place[a] != Place.Road;
            var (start, end) = (b - 1, b + 1);
            var charges = car.MostKw[a] > 0 && car.MostKw[b] > 0;
            var lower = standing ? problem.LowerKwh[b] <= problem.LowerKwh[start] : problem.LowerKwh[b] <= problem.LowerKwh[end];
            var upper = standing ? problem.UpperKwh[b] >= problem.UpperKwh[end] : problem.UpperKwh[b] >= problem.UpperKwh[start];
            if (!Holds(MergeCondition.Availability, problem.Place[a] == problem.Place[b] && (charges || car.MostKw[a] == car.MostKw[b]))
                || !Holds(MergeCondition.CurrentLimit, !charges || (car.MostKw[a] == car.MostKw[b] && car.LeastKw[a] == car.LeastKw[b]))
                || !(!charges || Same(MergeCondition.Rate, car.OverheadKw[a], car.OverheadKw[b]))
                || !Holds(MergeCondition.LowerBound, lower)
                || !Holds(MergeCondition.UpperBound, upper)
                || !(problem.Place[a] != Place.Stop || Same(MergeCondition.StopPrice, problem.Price[a], problem.Price[b])))
            {
                return false;
            }
        }

        return true;
    }

    private void AddEdges(Interval period)
    {
        foreach (var instant in new[] { period.Start, period.End })
        {
            var at = Array.BinarySearch(model.Problem.Boundaries, instant);
            leastBillEdges.Add(at >= 0 ? at : ~at);
        }
    }

    private bool Same(MergeCondition condition, double a, double b) => a == b || (ignored & condition) != 0;

    private bool Holds(MergeCondition condition, bool holds) => holds || (ignored & condition) != 0;
}
