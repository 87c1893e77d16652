using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>The current at which a car may charge earlier or later than planned, beside what the others take.</summary>
internal static class SpareCurrent
{
    /// <summary>The planned current of each interval, and before a window, or after a stay's last, what the window may have there; 0 where nothing is left. [A, per phase]</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="car">Index of the car.</param>
    /// <param name="plannedA">Current of every car in every interval, 0 where it is off. [A, per phase]</param>
    public static double[] Of(HouseholdProblem problem, int car, IReadOnlyList<double[]> plannedA)
    {
        var own = problem.Cars[car];
        var current = (double[])plannedA[car].Clone();
        Fill(Enumerable.Range(0, current.Length).Reverse());
        Fill(Enumerable.Range(0, current.Length));
        return current;

        // Of the hours between two windows the first pass has filled all that can be: the second fills those after a stay's last window.
        void Fill(IEnumerable<int> intervals)
        {
            var beside = 0.0;
            foreach (var i in intervals)
            {
                if (own.Problem.Place[i] != Place.Home)
                {
                    beside = 0;
                }
                else if (plannedA[car][i] > 0)
                {
                    beside = current[i];
                }
                else if (beside > 0 && current[i] == 0)
                {
                    current[i] = Settable(own, own.Rules.Adjustable ? Math.Min(beside, own.MostA[i]) : own.MostA[i], LeftA(problem, car, plannedA, i));
                }
            }
        }
    }

    /// <summary>The current that a car can be set to where so much is left. [A, per phase]</summary>
    /// <param name="car">The car.</param>
    /// <param name="wantedA">The current it would have. [A, per phase]</param>
    /// <param name="leftA">What is left for it. [A, per phase]</param>
    public static double Settable(HouseholdCar car, double wantedA, double leftA)
    {
        if (leftA >= wantedA - 1e-9)
        {
            return wantedA;
        }

        var set = car.Rules.Adjustable ? leftA : 0;
        set = car.Rules.WholeAmperes ? Math.Floor(set + 1e-9) : set;
        return set >= car.LeastA ? set : 0;
    }

    /// <summary>What shared circuits and the import limit leave a car beside the others. [A, per phase]</summary>
    public static double LeftA(HouseholdProblem problem, int car, IReadOnlyList<double[]> takenA, int interval)
    {
        var left = double.PositiveInfinity;
        foreach (var circuit in problem.Circuits)
        {
            if (circuit.Cars.Contains(car))
            {
                left = Math.Min(left, circuit.LeftA(interval) - circuit.Cars.Where(c => c != car && c < takenA.Count).Sum(c => takenA[c][interval]));
            }
        }

        if (problem.ImportLimitKw is { } limit)
        {
            var kw = Math.Max(0, limit - problem.HouseKw[interval] + problem.SolarKw[interval]);
            for (var c = 0; c < takenA.Count; c++)
            {
                kw -= c == car ? 0 : problem.Cars[c].VoltsAcrossPhases * takenA[c][interval] / 1000;
            }

            left = Math.Min(left, kw * 1000 / problem.Cars[car].VoltsAcrossPhases);
        }

        return left;
    }
}
