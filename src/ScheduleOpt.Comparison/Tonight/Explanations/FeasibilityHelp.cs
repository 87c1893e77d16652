using NodaTime;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight.Explanations;

/// <summary>The least change of each kind that cures a shortfall, found by solving the changed question again. A change cures where the departure is short no more
/// and no other is shorter for it.</summary>
internal sealed class FeasibilityHelp
{
    private const int MostHelped = 3;
    private const int MostMinutes = 24 * 60;
    private const int StateSteps = 10_000;

    private readonly Alternatives alternatives;
    private readonly int car;
    private readonly int departure;
    private readonly CarPlan own;

    private FeasibilityHelp(Alternatives alternatives, int car, int departure) =>
        (this.alternatives, this.car, this.departure, own) = (alternatives, car, departure, alternatives.Plan.Cars[car]);

    /// <summary>Help for the first departures that are short.</summary>
    public static List<ShortfallHelp> Of(Alternatives alternatives, int car)
    {
        var help = new List<ShortfallHelp>();
        var asked = alternatives.Asked;
        for (var k = 0; k < asked.TripShortfallKwh[car].Length && help.Count < MostHelped; k++)
        {
            if (asked.TripShortfallKwh[car][k] > NightPlanner.NegligibleKwh || asked.TargetShortfallKwh[car][k] > NightPlanner.NegligibleKwh)
            {
                help.Add(new FeasibilityHelp(alternatives, car, k).Help());
            }
        }

        return help;
    }

    private ShortfallHelp Help()
    {
        var circuit = Circuit();
        return new(
            own.Departures[departure].Departure,
            Earlier(),
            circuit?.BreakerA,
            circuit?.ChargingCurrentA(own.Case.Vehicle),
            Target(),
            Away());
    }

    private bool Cures(HouseholdCase changed) => alternatives.Cures(changed, car, departure);

    private Duration? Earlier()
    {
        var (most, change) = departure == 0 ? FromTheStart() : AfterTheTripBefore();
        if (most <= 0)
        {
            return null;
        }

        // More time never hurts: the least whole minute by bisection, which what is missing at full power most often ends at once.
        var (fails, cures) = (0, most + 1);
        var guess = Math.Clamp(Guess(), 1, most);
        foreach (var minutes in new[] { guess, guess - 1, guess + 1, most })
        {
            if (minutes > fails && minutes < cures)
            {
                (fails, cures) = Cures(change(minutes)) ? (fails, minutes) : (minutes, cures);
            }
        }

        while (cures - fails > 1)
        {
            var middle = (fails + cures) / 2;
            (fails, cures) = Cures(change(middle)) ? (fails, middle) : (middle, cures);
        }

        return cures > most ? null : Duration.FromMinutes(cures);
    }

    /// <summary>Minutes in which what is missing could be stored at full power, as fast as in the first hours in which anything can be.</summary>
    private int Guess()
    {
        var problem = own.Problem;
        var missing = alternatives.Asked.TripShortfallKwh[car][departure] + alternatives.Asked.TargetShortfallKwh[car][departure];
        var first = departure == 0 ? 0 : problem.Departures[departure - 1].ReturnBoundary;
        for (var i = first; i < problem.Departures[departure].Boundary; i++)
        {
            if (problem.NetKw[i] > 0)
            {
                return (int)Math.Min(MostMinutes, Math.Ceiling((missing / problem.NetKw[i] * 60) - 1e-6));
            }
        }

        return MostMinutes / 2;
    }

    /// <summary>The first stay begins earlier: by less time without a plug where the car comes later than the question begins, otherwise by an earlier question.</summary>
    private (int Most, Func<int, HouseholdCase> Change) FromTheStart()
    {
        var start = own.Case.Start;
        var waits = own.Case.NoCharging.FirstOrDefault(h => h.HasStart && h.Start == start && h.HasEnd);
        if (waits.HasEnd && waits.HasStart && waits.End > start)
        {
            return (
                Math.Min(MostMinutes, (int)(waits.End - start).TotalMinutes),
                minutes => alternatives.With(car, c => c with
                {
                    NoCharging = [.. c.NoCharging.Where(h => h != waits), new Interval(start, waits.End - Duration.FromMinutes(minutes))],
                }));
        }

        var question = alternatives.Plan.Question.Case;
        return (MostMinutes, minutes => question with { Cars = [.. question.Cars.Select((c, k) => c with { Case = Beginning(c.Case, minutes, k == car) })] });
    }

    private static ChargingCase Beginning(ChargingCase question, int minutesEarlier, bool plugged)
    {
        var start = question.Start - Duration.FromMinutes(minutesEarlier);
        return question with
        {
            Start = start,
            Calendar = new DrivingCalendar(question.Calendar.Trips.Where(t => t.Departure >= question.Start)),
            NoCharging = plugged ? question.NoCharging : [.. question.NoCharging, new Interval(start, question.Start)],
        };
    }

    private (int Most, Func<int, HouseholdCase> Change) AfterTheTripBefore()
    {
        var before = own.Departures[departure - 1].Departure;
        var last = own.Case.Calendar.Trips.First(t => t.Departure == before).Legs[^1];
        return (
            Math.Min(MostMinutes, (int)(last.End - last.Start).TotalMinutes - 1),
            minutes => alternatives.With(car, c => c with
            {
                Calendar = new DrivingCalendar(c.Calendar.Trips.Select(t => t.Departure == before ? BackEarlier(t, Duration.FromMinutes(minutes)) : t)),
            }));
    }

    private static Trip BackEarlier(Trip trip, Duration by) => trip with
    {
        Return = trip.Return - by,
        Legs = [.. trip.Legs.SkipLast(1), trip.Legs[^1] with { End = trip.Legs[^1].End - by }],
    };

    private Supply? Circuit()
    {
        if (own.Case.Supply is not { } supply)
        {
            return null;
        }

        var before = supply.ChargingCurrentA(own.Case.Vehicle);
        for (var next = MoneyAnswers.Larger(supply); next is not null; next = MoneyAnswers.Larger(next))
        {
            var current = next.ChargingCurrentA(own.Case.Vehicle);
            if (current > before + 1e-9 && Cures(alternatives.With(car, c => c with { Supply = next })))
            {
                return next;
            }

            before = Math.Max(before, current);
        }

        return null;
    }

    private double? Target()
    {
        if (alternatives.Asked.TripShortfallKwh[car][departure] > Alternatives.SameKwh)
        {
            return null;
        }

        var usable = own.Problem.UsableKwh;
        var at = own.Departures[departure].Departure;
        bool Meets(int step) => Cures(alternatives.With(car, c => MoneyAnswers.Requiring(c, at, step * usable / StateSteps)));

        // What the car has then is the answer, unless asking for less lowers what may be stored before.
        var required = own.Departures[departure].RequiredKwh;
        var guess = (int)Math.Floor((required - alternatives.Asked.TargetShortfallKwh[car][departure] + 1e-9) / usable * StateSteps);
        if (Meets(guess) && !Meets(guess + 1))
        {
            return (double)guess / StateSteps;
        }

        var (meets, fails) = (0, (int)Math.Ceiling(required / usable * StateSteps));
        if (!Meets(meets))
        {
            return null;
        }

        while (fails - meets > 1)
        {
            var middle = (fails + meets) / 2;
            (meets, fails) = Meets(middle) ? (middle, fails) : (meets, middle);
        }

        return (double)meets / StateSteps;
    }

    /// <summary>What the trip needs at its confidence beyond what the car leaves with; at least what it is short of on average.</summary>
    private double? Away()
    {
        var asked = alternatives.Asked;
        var without = ChargingProblemBuilder.Build(own.Case with
        {
            DefaultTarget = null,
            RequiredKwh = null,
            Calendar = new DrivingCalendar(own.Case.Calendar.Trips.Select(t => t with { Target = null })),
        });
        var need = without.Departures[departure].RequiredKwh;
        var stored = asked.StoredKwh[car][own.Problem.Departures[departure].Boundary];
        var away = Math.Max(asked.TripShortfallKwh[car][departure], need - stored);
        return away > Alternatives.SameKwh ? away : null;
    }
}
