using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>A car's problem with less current than it could have.</summary>
internal static class LimitedCar
{
    /// <summary>The problem at other currents; the car's own where nothing differs.</summary>
    /// <param name="car">The car.</param>
    /// <param name="currentA">The most current in each interval, at most its own; 0: none. [A, per phase]</param>
    public static ChargingProblem At(HouseholdCar car, double[] currentA)
    {
        if (ReferenceEquals(currentA, car.MostA))
        {
            return car.Problem;
        }

        var (wall, net) = (new double[currentA.Length], new double[currentA.Length]);
        for (var i = 0; i < net.Length; i++)
        {
            var asBefore = car.Problem.Place[i] != Place.Home || currentA[i] == car.MostA[i];
            wall[i] = asBefore ? car.Problem.WallKw[i] : car.VoltsAcrossPhases * currentA[i] / 1000;
            net[i] = asBefore ? car.Problem.NetKw[i] : ChargingModel.NetRateKw(wall[i], car.Problem.TemperatureC[i], car.Problem.Constants);
        }

        return car.Problem with { MostA = currentA, WallKw = wall, NetKw = net };
    }

    /// <summary>The problem beside what other cars take: in each interval the current that shared circuits and the import limit leave.</summary>
    /// <param name="problem">The household.</param>
    /// <param name="car">Index of the car.</param>
    /// <param name="takenA">Current of every car in every interval in which it is on at all. [A, per phase]</param>
    public static ChargingProblem Beside(HouseholdProblem problem, int car, IReadOnlyList<double[]> takenA)
    {
        var own = problem.Cars[car];
        if (problem.Circuits.Count == 0 && problem.ImportLimitKw is null)
        {
            return own.Problem;
        }

        var current = new double[problem.Count];
        for (var i = 0; i < current.Length; i++)
        {
            current[i] = own.MostA[i] > 0 ? SpareCurrent.Settable(own, own.MostA[i], SpareCurrent.LeftA(problem, car, takenA, i)) : 0;
        }

        return At(own, current);
    }
}
