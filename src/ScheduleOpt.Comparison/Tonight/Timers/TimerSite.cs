using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight.Timers;

/// <summary>Where a timer of one car runs: beside the other cars as they are scheduled, within what circuit and import limit leave, at what the whole bill says.</summary>
internal sealed class TimerSite
{
    // Most currents that are tried where any may be set.
    private const int MostCurrents = 6;

    private readonly NightPlan night;
    private readonly int car;
    private readonly double[] othersKw;

    public TimerSite(NightPlan night, int car)
    {
        (this.night, this.car) = (night, car);
        Problem = LimitedCar.Beside(night.Problem, car, [.. night.Cars.Select(c => c.CurrentA)]);
        othersKw = HouseholdBill.ChargingKw(night.Problem, [.. night.Cars.Select(c => c.Replay)]);
        OwnKw = new double[night.Problem.Count];
        for (var i = 0; i < OwnKw.Length; i++)
        {
            OwnKw[i] = Plan.Problem.Place[i] == Place.Home ? OwnKwh(i) / night.Problem.Hours[i] : 0;
            othersKw[i] -= OwnKw[i];
        }
    }

    public CarPlan Plan => night.Cars[car];

    /// <summary>The car's problem with the current that is left for it.</summary>
    public ChargingProblem Problem { get; }

    /// <summary>The car's charging by the schedule. [kW, average over the interval]</summary>
    public double[] OwnKw { get; }

    private bool IsCoupled => night.Route != SolveRoute.Shares;

    /// <summary>What the schedule takes at home in an interval, warming left out. [kWh]</summary>
    public double OwnKwh(int interval) => Plan.Replay.WallKwh[interval] - Plan.Problem.WarmUpKwh(interval);

    /// <summary>Currents to try, the highest first: the most of any hours, and where the current can be set those of the schedule, the most that all hours leave, and the least that stores in all of a
    /// stay what the schedule does. [A, per phase]</summary>
    public IEnumerable<double> Currents()
    {
        var most = Plan.Problem.MostA.Where(a => a > 0).Distinct();
        if (!IsCoupled || !Plan.Car.Rules.Adjustable)
        {
            return most.OrderDescending();
        }

        var left = Problem.MostA.Where(a => a > 0).DefaultIfEmpty(0).Min();
        return most.Concat(AllStay()).Append(left).Concat(Plan.Steps.Select(s => s.CurrentA)).Distinct().Take(MostCurrents).Where(a => a >= Plan.Car.LeastA && a <= Plan.FullCurrentA).OrderDescending();
    }

    /// <summary>What energy in a stay costs beside the rest.</summary>
    /// <param name="stay">The stay.</param>
    /// <param name="ownKw">The car's charging in other stays; that in this one is left out. [kW]</param>
    public Func<double[], double> CostIn(HomeStay stay, double[] ownKw)
    {
        if (!IsCoupled)
        {
            return wallKwh => wallKwh.Select((kwh, k) => kwh * Plan.Problem.Price[stay.First + k]).Sum();
        }

        var fixedKw = new double[ownKw.Length];
        for (var i = 0; i < fixedKw.Length; i++)
        {
            fixedKw[i] = othersKw[i] + (i >= stay.First && i < stay.End ? 0 : ownKw[i]);
        }

        var (from, until, cut) = TimerSpan.Of(HouseholdBill.Beside(night.Problem, fixedKw), stay);
        return wallKwh =>
        {
            var kw = new double[until - from];
            for (var k = 0; k < wallKwh.Length; k++)
            {
                kw[stay.First + k - from] = wallKwh[k] / night.Problem.Hours[stay.First + k];
            }

            return HouseholdBill.Of(cut, kw).Bill;
        };
    }

    private IEnumerable<double> AllStay()
    {
        foreach (var stay in HomeStay.Of(Plan.Problem).Take(2))
        {
            var (hours, spent) = (0.0, 0.0);
            for (var i = stay.First; i < stay.End; i++)
            {
                var at = Problem.MostA[i] > 0 ? Problem.Hours[i] : 0;
                hours += at;
                spent += at * (Problem.Constants.OverheadKw + ChargingModel.HeatingKw(Problem.TemperatureC[i], Problem.Constants));
            }

            var gain = Plan.Replay.StoredKwh[stay.End] - Plan.Replay.StoredKwh[stay.First];
            if (hours > 0 && gain > NightPlanner.NegligibleKwh)
            {
                // Set in tenths of an ampere, or whole ones.
                var current = (gain + spent) / hours / Problem.Constants.ConversionEfficiency * 1000 / Plan.Car.VoltsAcrossPhases;
                yield return Plan.Car.Rules.WholeAmperes ? Math.Ceiling(current) : Math.Ceiling(current * 10) / 10;
            }
        }
    }

    /// <summary>Which limit of the household keeps a run from serving as the schedule does; none where the reason is the car's own.</summary>
    public string? WhyNot()
    {
        if (ReferenceEquals(Problem, Plan.Problem))
        {
            return null;
        }

        var withoutCircuit = LimitedCar.Beside(night.Problem with { Circuits = [] }, car, [.. night.Cars.Select(c => c.CurrentA)]);
        var circuit = !withoutCircuit.MostA.SequenceEqual(Problem.MostA);
        var import = !withoutCircuit.MostA.SequenceEqual(Plan.Problem.MostA);
        var limits = string.Join(" and ", new[] { circuit ? "the shared circuit beside the other cars" : null, import ? "the import limit of the house" : null }.OfType<string>());
        return limits.Length == 0 ? null : $"No single run stores what the schedule does and keeps {limits}: charging has to pause or change its current.";
    }
}
