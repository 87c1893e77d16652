using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year.Nights;

/// <summary>Makes the forecasts of all nights of a set-up's year. They depend on no price and no behaviour, so its cells share them.</summary>
internal sealed class NightForecasts
{
    private static readonly LocalTime Noon = new(12, 0);
    private static readonly Duration WholeStay = Duration.FromHours(8);
    private readonly YearFrame frame;
    private readonly ChargingProblem year;
    private readonly LeastCostByNight behaviour;
    private readonly double extendedKwh;
    private readonly int[] dayOf;

    private NightForecasts(YearFrame frame, ChargingProblem year, LeastCostByNight behaviour)
    {
        (this.frame, this.year, this.behaviour) = (frame, year, behaviour);
        extendedKwh = year.UsableKwh * frame.Question.Vehicle.ExtendedLimit.Fraction;
        dayOf = DaysOf(frame.Span, year);
    }

    /// <summary>The forecasts in order; their decisions follow one another without a gap from the first stay to the year's end.</summary>
    public static NightForecast[] Of(YearFrame frame, ChargingProblem year, LeastCostByNight behaviour)
    {
        var forecasts = new NightForecasts(frame, year, behaviour);
        int[] plannings = [.. forecasts.Plannings()];
        return [.. plannings.Select((first, n) => forecasts.Night(first, n + 1 < plannings.Length ? plannings[n + 1] : year.Count))];
    }

    /// <summary>Plans are made when the car comes home and at every noon at home.</summary>
    private IEnumerable<int> Plannings()
    {
        foreach (var stay in HomeStay.Of(year))
        {
            yield return stay.First;
            var day = year.Boundaries[stay.First].InZone(frame.Span.Zone.Zone).Date;
            for (var last = stay.First; ; day = day.PlusDays(1))
            {
                var noon = BoundaryAt(frame.Span.Zone.Departure(day + Noon).Instant);
                if (noon >= stay.End)
                {
                    break;
                }

                if (noon > last)
                {
                    last = noon;
                    yield return noon;
                }
            }
        }
    }

    private NightForecast Night(int first, int until)
    {
        var day = dayOf[first];
        var end = HorizonEnd(first, until);
        var fine = Math.Max(until, BoundaryAt(year.Boundaries[first] + Duration.FromDays(1)));
        var departures = year.Departures.Where(d => d.Boundary >= first && d.ReturnBoundary <= end && d.Boundary < end).ToArray();
        var starts = Starts(first, fine, end, departures);
        var problem = Forecast(starts, departures, day, end);
        return new NightForecast(first, until, day, BoundaryAt(StartOf(day + 2)), problem, starts);
    }

    /// <summary>At the first departure after the days asked for and the second departure ahead, that has a whole stay before it; else at the year's end.</summary>
    private int HorizonEnd(int first, int until)
    {
        var end = Math.Max(until, BoundaryAt(year.Boundaries[first] + Duration.FromDays(behaviour.HorizonDays)));
        var (ahead, back) = (0, 0);
        foreach (var departure in year.Departures)
        {
            ahead += departure.Boundary >= first ? 1 : 0;
            if (ahead > 2 && departure.Boundary >= end && year.Boundaries[departure.Boundary] - year.Boundaries[back] >= WholeStay)
            {
                return departure.Boundary;
            }

            back = departure.ReturnBoundary;
        }

        return year.Count;
    }

    /// <summary>Intervals of the year up to a boundary; after it those of one hour at one place are one.</summary>
    private int[] Starts(int first, int fine, int end, DepartureTarget[] departures)
    {
        var starts = new List<int>(end - first + 1);
        var departure = 0;
        for (var i = first; i < end; i++)
        {
            while (departure < departures.Length && departures[departure].Boundary < i)
            {
                departure++;
            }

            var leaves = departure < departures.Length && departures[departure].Boundary == i;
            if (i <= fine || leaves || year.Place[i] != year.Place[i - 1] || year.WallKw[i] != year.WallKw[i - 1] || year.TemperatureC[i] != year.TemperatureC[i - 1]
                || year.Boundaries[i].ToUnixTimeSeconds() % NodaConstants.SecondsPerHour == 0)
            {
                starts.Add(i);
            }
        }

        starts.Add(end);
        return [.. starts];
    }

    private ChargingProblem Forecast(int[] starts, DepartureTarget[] departures, int day, int end)
    {
        var n = starts.Length - 1;
        var errors = new double[dayOf[starts[n - 1]] - day + 1];
        for (var d = 0; d < errors.Length; d++)
        {
            errors[d] = behaviour.Errors.BiasK + (behaviour.Errors.SigmaK(d) * Draws.Normal(behaviour.Errors.Seed, starts[0], d));
        }

        var (boundaries, hours, place, most, wall) = (new Instant[n + 1], new double[n], new Place[n], new double[n], new double[n]);
        var (net, temperature, drive) = (new double[n], new double[n], new double[n]);
        boundaries[n] = year.Boundaries[end];
        for (var i = 0; i < n; i++)
        {
            var at = starts[i];
            boundaries[i] = year.Boundaries[at];
            place[i] = year.Place[at];
            most[i] = year.MostA[at];
            wall[i] = year.WallKw[at];
            temperature[i] = year.TemperatureC[at] + errors[dayOf[at] - day];
            for (var from = at; from < starts[i + 1]; from++)
            {
                hours[i] += year.Hours[from];
                drive[i] += year.DriveKwh[from];
            }

            net[i] = place[i] == Place.Road ? 0 : ChargingModel.NetRateKw(wall[i], temperature[i], year.Constants);
        }

        var targets = new DepartureTarget[departures.Length];
        for (var k = 0; k < targets.Length; k++)
        {
            targets[k] = Expected(departures[k], starts, errors[dayOf[departures[k].Boundary] - day], drive);
        }

        return ChargingProblemBuilder.WithLimits(
            year with
            {
                Boundaries = boundaries,
                Hours = hours,
                Place = place,
                Price = new double[n],
                MostA = most,
                WallKw = wall,
                NetKw = net,
                TemperatureC = temperature,
                DriveKwh = drive,
                Departures = targets,
                InitialKwh = year.OrdinaryKwh,
                FinalKwh = end == year.Count ? year.FinalKwh : year.OrdinaryKwh,
            },
            extendedKwh);
    }

    /// <summary>A departure as it is expected: its need follows the forecast temperature, and so does what its legs take.</summary>
    private DepartureTarget Expected(DepartureTarget departure, int[] starts, double error, double[] drive)
    {
        var consumption = frame.Question.Vehicle.Consumption;
        var celsius = year.TemperatureC[departure.Boundary];
        var ratio = behaviour.Errors.TripEnergyFactor * consumption.Factor(celsius + error) / consumption.Factor(celsius);
        var (from, until) = (Array.BinarySearch(starts, departure.Boundary), Array.BinarySearch(starts, departure.ReturnBoundary));
        for (var i = from; i < until; i++)
        {
            drive[i] *= ratio;
        }

        var need = year.MinimumKwh + (ratio * (departure.NeedKwh - year.MinimumKwh));
        return departure with
        {
            Boundary = from,
            ReturnBoundary = until,
            DueBoundary = from,
            RequiredKwh = Math.Min(extendedKwh, Math.Max(departure.TargetKwh, need)),
            NeedKwh = need,
            DriveKwh = departure.DriveKwh * ratio,
        };
    }

    private Instant StartOf(int day) => frame.Span.Zone.StartOf(new LocalDate(frame.Question.Year, 1, 1).PlusDays(day));

    /// <summary>The first boundary at or after an instant.</summary>
    private int BoundaryAt(Instant instant)
    {
        var found = Array.BinarySearch(year.Boundaries, instant);
        return Math.Min(year.Count, found >= 0 ? found : ~found);
    }

    private static int[] DaysOf(YearSpan span, ChargingProblem year)
    {
        var days = new int[year.Count];
        var first = span.Start.InZone(span.Zone.Zone).Date;
        var (day, next) = (0, span.Zone.StartOf(first.PlusDays(1)));
        for (var i = 0; i < days.Length; i++)
        {
            while (year.Boundaries[i] >= next)
            {
                day++;
                next = span.Zone.StartOf(first.PlusDays(day + 1));
            }

            days[i] = day;
        }

        return days;
    }
}
