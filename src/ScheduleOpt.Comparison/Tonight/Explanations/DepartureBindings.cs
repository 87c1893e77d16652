using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight.Explanations;

/// <summary>What binds for each of the next two departures.</summary>
/// <remarks>
/// By this rule, on the optimum of steps 1 and 2. Where the departure is met and a kWh less there would save nothing, its price alone decides. Otherwise the first of these that holds:
/// the car leaves at its extended limit, or short though at the limit that holds then (limit); time at no more than the highest price used is not full because shared circuit or import limit are (household);
/// all time in which the car can charge is used in full (time); time at a lower price than the highest used is left, which only limits of what may be stored, or energy due earlier, can cause
/// (limit); there is time at a lower price, and all of it is used in full (current); none of them (price).
/// </remarks>
internal static class DepartureBindings
{
    private const int DeparturesAhead = 2;
    private const double Nothing = 1e-6;
    private const double SavesNothing = 1e-5;
    private const string HasEnough = "Nothing but the price: the car has what it needs then anyway; what is charged before it is for later, where that costs least.";

    public static List<Binding> Of(Alternatives alternatives, int car, MoneyAnswers money, OneMoreKwh? next)
    {
        var own = alternatives.Plan.Cars[car];
        var bindings = new List<Binding>();
        for (var k = 0; k < Math.Min(DeparturesAhead, own.Departures.Count); k++)
        {
            var asked = alternatives.Asked;
            var isShort = asked.TripShortfallKwh[car][k] > Alternatives.SameKwh || asked.TargetShortfallKwh[car][k] > Alternatives.SameKwh;
            var saving = k == 0 ? next?.Saving : -money.MoreAt(k, -1)?.Bill;
            if (!isShort && !(saving > SavesNothing))
            {
                bindings.Add(new(own.Departures[k].Departure, BindingKind.Price, HasEnough));
                continue;
            }

            var kind = KindOf(alternatives, car, k, isShort);
            bindings.Add(new(own.Departures[k].Departure, kind, Sentence(kind, isShort)));
        }

        return bindings;
    }

    private static BindingKind KindOf(Alternatives alternatives, int car, int departure, bool isShort)
    {
        var (own, asked) = (alternatives.Plan.Cars[car], alternatives.Asked);
        var problem = own.Problem;
        var at = problem.Departures[departure].Boundary;
        var extended = own.Case.Vehicle.ExtendedLimit.Fraction * problem.UsableKwh;
        if (asked.StoredKwh[car][at] >= (isShort ? problem.UpperKwh[at] : extended) - Nothing)
        {
            return BindingKind.Limit;
        }

        var stay = HomeStay.Of(problem).FirstOrDefault(s => s.End == at);
        var highest = double.NegativeInfinity;
        for (var i = stay.First; i < stay.End; i++)
        {
            highest = asked.Shares[car][i] > Nothing ? Math.Max(highest, PerStored(alternatives.Plan, own, i)) : highest;
        }

        var (anyLeft, lowerFull, lowerLeft) = (false, false, false);
        for (var i = stay.First; i < stay.End; i++)
        {
            var price = PerStored(alternatives.Plan, own, i);
            if (double.IsInfinity(price))
            {
                continue;
            }

            var isFull = asked.WallKw[car][i] >= (own.Car.VoltsAcrossPhases * own.Car.MostA[i] / 1000) - Nothing;
            if (!isFull && price <= highest && LimitIsReached(alternatives, car, i))
            {
                return BindingKind.Household;
            }

            anyLeft |= !isFull;
            lowerFull |= isFull && price < highest - Nothing;
            lowerLeft |= !isFull && price < highest - Nothing;
        }

        return !anyLeft ? BindingKind.Time : lowerLeft ? BindingKind.Limit : lowerFull ? BindingKind.Current : BindingKind.Price;
    }

    private static double PerStored(NightPlan plan, CarPlan own, int i)
    {
        var kw = own.Car.VoltsAcrossPhases * own.Car.MostA[i] / 1000;
        var rate = own.Problem.Place[i] == Place.Home ? ChargingModel.NetRateKw(kw, own.Problem.TemperatureC[i], own.Problem.Constants) : 0;
        return rate > 0 ? plan.Problem.ImportPrice[i] * kw / rate : double.PositiveInfinity;
    }

    private static bool LimitIsReached(Alternatives alternatives, int car, int i)
    {
        var (problem, taken) = (alternatives.Plan.Problem, alternatives.Asked.WallKw);
        double AtHome(int c) => problem.Cars[c].Problem.Place[i] == Place.Home ? taken[c][i] : 0;
        return problem.Circuits.Any(circuit => circuit.Cars.Contains(car)
                && circuit.Cars.Sum(c => AtHome(c) * 1000 / problem.Cars[c].VoltsAcrossPhases) >= circuit.LeftA(i) - Nothing)
            || (problem.ImportLimitKw is { } limit
                && problem.HouseKw[i] - problem.SolarKw[i] + Enumerable.Range(0, taken.Length).Sum(AtHome) >= limit - Nothing);
    }

    private static string Sentence(BindingKind kind, bool isShort) => (kind, isShort) switch
    {
        (BindingKind.Limit, _) => "A limit of what the battery may store holds: energy is taken later, or earlier, than its price alone would have it, or not at all.",
        (BindingKind.Household, _) => "The shared circuit or what the house may import is full in hours that would be used.",
        (BindingKind.Time, _) => "All the time plugged in before it is used: more time, or more current, would help.",
        (BindingKind.Current, _) => "The cheaper hours before it are full at this current, and dearer ones are used: more current would help.",
        (_, true) => "Energy asked for earlier, or a limit of what may be stored, leaves too little for it.",
        _ => "Nothing but the price: charging lies in the cheapest hours there are.",
    };
}
