using NodaTime;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Scheduling;

/// <summary>Cuts a charging case into intervals and works out, for each, what can be stored, what is driven and what the limits are.</summary>
public static class ChargingProblemBuilder
{
    /// <summary>Builds the problem.</summary>
    /// <exception cref="ArgumentException">The end is not after the start, lies inside a trip, or a trip is under way at the start.</exception>
    public static ChargingProblem Build(ChargingCase question)
    {
        ArgumentNullException.ThrowIfNull(question);
        var trips = TripsOf(question);
        var spans = trips.SelectMany(t => AwaySpan.Of(t, question)).ToArray();
        var cuts = PriceChanges(question.Prices.Spans)
            .Concat(question.Temperatures.ChangesWithin(question.Start, question.End))
            .Concat(spans.SelectMany(s => new[] { s.Start, s.End }));
        var boundaries = IntervalGrid.Cut(question.Start, question.End, question.GridStep, cuts);
        var n = boundaries.Length - 1;

        var hours = new double[n];
        var place = new Place[n];
        var price = new double[n];
        var wall = new double[n];
        var net = new double[n];
        var temperature = new double[n];
        var drive = new double[n];

        var constants = question.Vehicle.Constants;
        var homeKw = question.Supply?.ChargingPower(question.Vehicle).Kilowatts ?? 0;
        var prices = question.Prices.Spans;
        var (atPrice, atSpan) = (0, 0);
        var atTemperature = new TemperatureCursor(question.Temperatures);
        for (var i = 0; i < n; i++)
        {
            var start = boundaries[i];
            hours[i] = (boundaries[i + 1] - start).TotalHours;
            temperature[i] = atTemperature.At(start);
            while (atSpan < spans.Length && spans[atSpan].End <= start)
            {
                atSpan++;
            }

            if (atSpan < spans.Length && spans[atSpan].Start <= start)
            {
                var span = spans[atSpan];
                place[i] = span.Place;
                drive[i] = span.DriveKwh * (hours[i] / span.Hours);
                wall[i] = span.WallKw;
                price[i] = span.Price;
            }
            else
            {
                while (atPrice + 1 < prices.Count && prices[atPrice + 1].Start <= start)
                {
                    atPrice++;
                }

                price[i] = (double)prices[atPrice].ImportPerKwh;
                wall[i] = homeKw;
            }

            net[i] = ChargingModel.NetRateKw(wall[i], temperature[i], constants);
        }

        var usable = question.Vehicle.UsableEnergy.KilowattHours;
        var frame = new LimitFrame(
            usable,
            usable * question.Vehicle.OrdinaryLimit.Fraction,
            usable * question.Vehicle.ExtendedLimit.Fraction,
            usable * question.Vehicle.Minimum.Fraction,
            usable * question.PluggedInAt.Fraction,
            usable * question.FinalState?.Fraction);
        var departures = Departures(question, trips, boundaries, place, hours, net, frame);
        var limits = EnergyLimits.Of(frame, boundaries, hours, place, net, temperature, drive, departures);

        return new ChargingProblem
        {
            Boundaries = boundaries,
            Hours = hours,
            Place = place,
            Price = price,
            WallKw = wall,
            NetKw = net,
            TemperatureC = temperature,
            DriveKwh = drive,
            LowerKwh = limits.Lower,
            UpperKwh = limits.Upper,
            Departures = departures,
            InitialKwh = frame.Initial,
            UsableKwh = frame.Usable,
            OrdinaryKwh = frame.Ordinary,
            MinimumKwh = frame.Minimum,
            EndValuePerKwh = frame.Final is null ? EndValue.PerKwh(hours, place, price, wall, net) : 0,
            FinalKwh = frame.Final,
            Constants = constants,
        };
    }

    /// <summary>Where the price changes: a span that only bears another period's name makes no interval of its own.</summary>
    private static IEnumerable<Instant> PriceChanges(IReadOnlyList<PriceSpan> spans)
    {
        for (var s = 1; s < spans.Count; s++)
        {
            if (spans[s].ImportPerKwh != spans[s - 1].ImportPerKwh)
            {
                yield return spans[s].Start;
            }
        }
    }

    private static Trip[] TripsOf(ChargingCase question)
    {
        // A departure at the very end still asks for its energy, though its trip lies beyond.
        var trips = question.Calendar.Trips.Where(t => t.Return > question.Start && t.Departure <= question.End).ToArray();
        foreach (var trip in trips)
        {
            if (trip.Departure < question.Start)
            {
                throw new ArgumentException($"The trip of {trip.Departure} is under way at the start.", nameof(question));
            }

            if (trip.Departure < question.End && trip.Return > question.End)
            {
                throw new ArgumentException($"The trip of {trip.Departure} is not back at the end.", nameof(question));
            }
        }

        return trips;
    }

    private static DepartureTarget[] Departures(
        ChargingCase question, Trip[] trips, Instant[] boundaries, Place[] place, double[] hours, double[] net, LimitFrame frame)
    {
        var factor = Confidence.Factor(question.TripConfidence, question.Vehicle.Consumption.Spread);
        var departures = new DepartureTarget[trips.Length];
        for (var k = 0; k < trips.Length; k++)
        {
            var trip = trips[k];
            var from = Array.BinarySearch(boundaries, trip.Departure);
            var inside = trip.Departure < question.End;
            var until = inside ? Array.BinarySearch(boundaries, trip.Return) : from;
            var spans = AwaySpan.Of(trip, question).ToArray();
            var need = inside
                ? TripNeed.Of(spans, boundaries, from, until, hours, net, factor, frame.Minimum)
                : TripNeed.Beyond(spans, question, factor, frame.Minimum);
            var target = (trip.Target ?? question.DefaultTarget)?.Fraction * frame.Usable ?? 0;
            departures[k] = new DepartureTarget(
                from,
                until,
                Math.Min(frame.Extended, Math.Max(target, need)),
                inside ? spans.Sum(s => s.DriveKwh) : 0,
                inside ? trip.Distance.Kilometres : 0);
        }

        return departures;
    }
}
