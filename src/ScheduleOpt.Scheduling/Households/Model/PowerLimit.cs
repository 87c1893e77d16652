namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>What some cars may take together: a shared circuit in amperes, or the import limit in kW.</summary>
/// <param name="Cars">Indexes of its cars.</param>
/// <param name="PerKw">What a kW of each of them counts.</param>
/// <param name="Most">The most of each interval.</param>
internal sealed record PowerLimit(int[] Cars, double[] PerKw, double[] Most)
{
    /// <summary>The power that it leaves a car which charges alone. [kW]</summary>
    public double AloneKw(int car, int interval)
    {
        var k = Array.IndexOf(Cars, car);
        return k < 0 ? double.PositiveInfinity : Most[interval] / PerKw[k];
    }

    /// <summary>Whether all its cars at their most stay below it.</summary>
    public bool IsSlack(IReadOnlyList<CarPower> cars, int interval)
    {
        var sum = 0.0;
        for (var k = 0; k < Cars.Length; k++)
        {
            sum += PerKw[k] * AtHome(cars[Cars[k]], interval);
        }

        return sum <= Most[interval] + 1e-9;
    }

    public static List<PowerLimit> Of(HouseholdProblem problem)
    {
        var limits = new List<PowerLimit>();
        foreach (var circuit in problem.Circuits)
        {
            // What the cars' warming takes of it is not there for charging.
            double[] most = [.. Enumerable.Range(0, problem.Count).Select(circuit.LeftA)];
            limits.Add(new([.. circuit.Cars], [.. circuit.Cars.Select(c => 1000 / problem.Cars[c].VoltsAcrossPhases)], most));
        }

        if (problem.ImportLimitKw is { } limit)
        {
            var cars = Enumerable.Range(0, problem.Cars.Count).ToArray();
            var most = new double[problem.Count];
            for (var i = 0; i < most.Length; i++)
            {
                most[i] = Math.Max(0, limit - problem.HouseKw[i] + problem.SolarKw[i]);
            }

            limits.Add(new(cars, [.. cars.Select(_ => 1.0)], most));
        }

        return limits;
    }

    private static double AtHome(CarPower car, int interval) => car.Car.Problem.Place[interval] == Place.Home ? car.MostKw[interval] : 0;
}
