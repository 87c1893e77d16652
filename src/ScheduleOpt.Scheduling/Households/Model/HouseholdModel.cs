namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>A household's problem with everything worked out that a solver needs and that does not depend on how intervals are merged.</summary>
internal sealed class HouseholdModel
{
    private HouseholdModel(HouseholdProblem problem)
    {
        Problem = problem;
        var n = problem.Count;
        Limits = PowerLimit.Of(problem);
        Cars = [.. problem.Cars.Select((car, c) => CarPower.Of(car, c, Limits))];
        (BaseKw, MostKw) = (new double[n], new double[n]);
        for (var i = 0; i < n; i++)
        {
            BaseKw[i] = problem.HouseKw[i] - problem.SolarKw[i];
            foreach (var car in Cars)
            {
                MostKw[i] += car.Car.Problem.Place[i] == Place.Home ? car.MostKw[i] : 0;
            }
        }

        Terms = [.. TermReading.Terms(problem, MostKw)];
        LeastBills = [.. TermReading.LeastBills(problem)];
        var convex = Terms.All(t => t.Pieces.IsConvex);
        ChoosesFlow = new bool[n];
        for (var i = 0; i < n; i++)
        {
            var bothWays = BaseKw[i] < 0 && MostKw[i] > -BaseKw[i];
            ChoosesFlow[i] = bothWays && (!convex || problem.ExportPrice[i] > problem.ImportPrice[i] + problem.CarbonPrice[i]);
        }
    }

    public HouseholdProblem Problem { get; }

    public CarPower[] Cars { get; }

    public List<PowerLimit> Limits { get; }

    /// <summary>House less solar: import without charging, or export where it is below 0. [kW]</summary>
    public double[] BaseKw { get; }

    /// <summary>All cars at their most. [kW]</summary>
    public double[] MostKw { get; }

    /// <summary>Terms that can make a difference.</summary>
    public TermModel[] Terms { get; }

    public LeastBill[] LeastBills { get; }

    /// <summary>Whether a binary must say if an interval imports or exports: import and export at once would pay, or count as use.</summary>
    public bool[] ChoosesFlow { get; }

    public static HouseholdModel Of(HouseholdProblem problem) => new(problem);

    /// <summary>Departures of all cars in time order; at one instant in the order of the cars.</summary>
    public IEnumerable<(int Car, int Departure)> DeparturesInOrder() =>
        from c in Enumerable.Range(0, Cars.Length)
        from k in Enumerable.Range(0, Problem.Cars[c].Problem.Departures.Length)
        orderby Problem.Cars[c].Problem.Departures[k].Boundary, c
        select (c, k);
}
