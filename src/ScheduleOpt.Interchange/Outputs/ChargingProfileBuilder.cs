using System.Globalization;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Outputs;

/// <summary>Turns a car's schedule into a charging profile.</summary>
public static class ChargingProfileBuilder
{
    // Currents come from arithmetic: this much below a tenth is that tenth.
    private const double Noise = 1e-6;

    // Below this, energy lost by rounding is no news. [kWh]
    private const double NegligibleKwh = 0.0005;

    private static readonly LocalDatePattern Digits = LocalDatePattern.CreateWithInvariantCulture("uuuuMMdd");

    /// <summary>The profile of a car's schedule, from its plug-in to its next departure.</summary>
    public static ChargingProfile Build(ScheduleRequest request, CarAnswer car, ChargingProfileChoice choice)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(choice);
        var supply = car.Car.Supply;
        var perAmpere = choice.Unit == ChargingRateUnit.Watts ? supply.VoltsAcrossPhases : 1;
        var from = car.Car.PlugIn.At;
        var until = car.Departures.Select(d => d.Departure).Where(d => d > from).DefaultIfEmpty(request.Span.End).Min();
        var least = RoundedUp(car.Car.Vehicle.MinimumCurrentA * perAmpere);
        var limited = car.Windows.SelectMany(w => w.Steps)
            .Where(s => s.Start >= from && s.Start < until)
            .Select(s => new Limited(s, RoundedDown(s.CurrentA * perAmpere) is var limit && limit >= least ? limit : 0))
            .ToArray();
        var periods = Periods(limited, from, until);
        var isCut = periods.Count > ChargingProfile.MostPeriods;
        var stop = isCut ? from + Duration.FromSeconds(periods[ChargingProfile.MostPeriods - 1].StartSeconds) : until;
        if (isCut)
        {
            periods = [.. periods.Take(ChargingProfile.MostPeriods - 1), new(periods[ChargingProfile.MostPeriods - 1].StartSeconds, 0)];
        }

        var planned = limited.Sum(l => l.Step.WallKwh);
        var energy = limited.Where(l => l.Step.Start < stop).Sum(l => l.Step.WallKwh * Math.Min(1, (double)l.Limit / (l.Step.CurrentA * perAmpere)));
        return new ChargingProfile
        {
            Choice = choice,
            Outlet = car.Car.Outlet,
            Id = IdOf(request, car, from),
            Phases = supply.Phases,
            ValidFrom = from,
            ValidTo = until,
            LeastRate = least,
            Periods = periods,
            PlannedKwh = planned,
            EnergyKwh = energy,
            Notes = [.. Notes(until, planned - energy, isCut ? stop : null)],
        };
    }

    private readonly record struct Limited(StepAnswer Step, decimal Limit);

    private static List<ChargingProfilePeriod> Periods(Limited[] limited, Instant from, Instant until)
    {
        var periods = new List<ChargingProfilePeriod>();
        var end = from;
        foreach (var (step, limit) in limited)
        {
            if (step.Start > end || periods.Count == 0)
            {
                // Off until the step begins; at the very start only where it does not begin at once.
                Add(end, step.Start > end ? 0 : limit);
            }

            Add(step.Start, limit);
            end = step.End;
        }

        if (end < until || periods.Count == 0)
        {
            Add(end, 0);
        }

        return periods;

        void Add(Instant at, decimal limit)
        {
            if (periods.Count == 0 || periods[^1].Limit != limit)
            {
                periods.Add(new((long)(at - from).TotalSeconds, limit));
            }
        }
    }

    // Down, so that no circuit carries a tenth more than was planned.
    private static decimal RoundedDown(double rate) => Math.Floor((decimal)(rate + Noise) * 10) / 10;

    private static decimal RoundedUp(double rate) => Math.Ceiling((decimal)(rate - Noise) * 10) / 10;

    private static int IdOf(ScheduleRequest request, CarAnswer car, Instant from)
    {
        var date = int.Parse(Digits.Format(from.InUtc().Date), CultureInfo.InvariantCulture);
        return request.CarsAreListed ? (10 * date) + 1 + request.Cars.ToList().FindIndex(c => c.Name == car.Car.Name) : date;
    }

    private static IEnumerable<string> Notes(Instant until, double lostKwh, Instant? cutAt)
    {
        yield return "The profile is a limit: the car may draw less, and never more than it takes.";
        yield return $"After validTo, {InstantPattern.General.Format(until)}, the charger falls back to a profile of a lower stack level or, without one, to its "
            + "full current at any price: send the next profile before then.";
        if (cutAt is { } at)
        {
            yield return $"A profile holds at most {ChargingProfile.MostPeriods} periods: from {InstantPattern.General.Format(at)} on this one allows no charging.";
        }

        if (lostKwh > NegligibleKwh)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture, $"Limits are rounded down to one decimal and never below the car's least: {lostKwh:0.000} kWh less than planned.");
        }
    }
}
