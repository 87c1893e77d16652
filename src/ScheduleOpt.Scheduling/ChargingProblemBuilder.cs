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
    public static ChargingProblem Build(ChargingCase question) => Build(question, wholeAmperes: false);

    /// <summary>The same problem at other prices, its end value worked out anew.</summary>
    /// <param name="problem">The problem; its boundaries fit the prices.</param>
    /// <param name="price">Price of energy at the meter in each interval. [currency/kWh]</param>
    public static ChargingProblem WithPrices(ChargingProblem problem, double[] price)
    {
        ArgumentNullException.ThrowIfNull(problem);
        return problem with
        {
            Price = price,
            EndValuePerKwh = problem.FinalKwh is null ? EndValue.PerKwh(problem.Hours, problem.Place, price, problem.WallKw, problem.NetKw) : 0,
        };
    }

    /// <summary>The same problem with its limits worked out anew: after its rates, departures or energy at the start have changed.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="extendedKwh">Energy at the extended limit. [kWh]</param>
    public static ChargingProblem WithLimits(ChargingProblem problem, double extendedKwh)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var frame = new LimitFrame(problem.UsableKwh, problem.OrdinaryKwh, extendedKwh, problem.MinimumKwh, problem.InitialKwh, problem.FinalKwh);
        var limits = EnergyLimits.Of(frame, problem.Boundaries, IntervalData.Of(problem), problem.Departures);
        return problem with { LowerKwh = limits.Lower, UpperKwh = limits.Upper };
    }

    /// <summary>Builds the problem of a car in a household.</summary>
    /// <param name="question">Its question.</param>
    /// <param name="wholeAmperes">Whether only whole amperes can be set.</param>
    /// <param name="keepMargin">Whether each departure may have its finish margin; none: all.</param>
    internal static ChargingProblem Build(ChargingCase question, bool wholeAmperes, bool[]? keepMargin = null)
    {
        ArgumentNullException.ThrowIfNull(question);
        var trips = TripsOf(question);
        var current = new HomeCurrent(question);
        var boundaries = IntervalGrid.Cut(question.Start, question.End, question.GridStep, Cuts(question, trips, current));
        var warmUp = WarmUpLoad.Of(question, trips, boundaries, current);
        var spans = trips.Select((t, k) => AwaySpan.Of(t, question, warmUp.SparedKwh[k]).ToArray()).ToArray();
        var intervals = Intervals(question, boundaries, [.. spans.SelectMany(s => s)], current, warmUp, wholeAmperes);

        var usable = question.Vehicle.UsableEnergy.KilowattHours;
        var frame = new LimitFrame(
            usable,
            usable * question.Vehicle.OrdinaryLimit.Fraction,
            usable * question.Vehicle.ExtendedLimit.Fraction,
            usable * question.Vehicle.Minimum.Fraction,
            usable * question.PluggedInAt.Fraction,
            usable * question.FinalState?.Fraction);
        var departures = Departures(question, trips, spans, boundaries, intervals, frame);
        departures = FinishMargins.Of(question, departures, boundaries, keepMargin, d => EnergyLimits.Of(frame, boundaries, intervals, d).Most(intervals, frame.Initial));
        var limits = EnergyLimits.Of(frame, boundaries, intervals, departures);

        return new ChargingProblem
        {
            Boundaries = boundaries,
            Hours = intervals.Hours,
            Place = intervals.Place,
            Price = intervals.Price,
            MostA = intervals.MostA,
            WallKw = intervals.WallKw,
            NetKw = intervals.NetKw,
            TemperatureC = intervals.TemperatureC,
            DriveKwh = intervals.DriveKwh,
            LowerKwh = limits.Lower,
            UpperKwh = limits.Upper,
            Departures = departures,
            InitialKwh = frame.Initial,
            UsableKwh = frame.Usable,
            OrdinaryKwh = frame.Ordinary,
            MinimumKwh = frame.Minimum,
            EndValuePerKwh = frame.Final is null ? EndValue.PerKwh(intervals.Hours, intervals.Place, intervals.Price, intervals.WallKw, intervals.NetKw) : 0,
            FinalKwh = frame.Final,
            WarmUpKw = warmUp.PowerKw,
            Ageing = question.Ageing,
            Constants = question.Vehicle.Constants,
        };
    }

    /// <summary>The instants at which something changes for a car, besides the grid's steps.</summary>
    internal static IEnumerable<Instant> Cuts(ChargingCase question) => Cuts(question, TripsOf(question), new HomeCurrent(question));

    private static IEnumerable<Instant> Cuts(ChargingCase question, Trip[] trips, HomeCurrent current) =>
        PriceChanges(question.Prices.Spans)
            .Concat(question.Temperatures.ChangesWithin(question.Start, question.End))
            .Concat(trips.SelectMany(t => AwaySpan.Of(t, question)).SelectMany(s => new[] { s.Start, s.End }))
            .Concat(current.Changes())
            .Concat(WarmUpLoad.Starts(question, trips))
            .Concat(FinishMargins.Starts(question, trips.Select(t => t.Departure)))
            .Concat(question.Cuts);

    private static IntervalData Intervals(
        ChargingCase question, Instant[] boundaries, AwaySpan[] spans, HomeCurrent current, WarmUpLoad warmUp, bool wholeAmperes)
    {
        var all = new IntervalData(boundaries);
        var prices = question.Prices.Spans;
        var (atPrice, atSpan) = (0, 0);
        var atTemperature = new TemperatureCursor(question.Temperatures);
        for (var i = 0; i < all.Count; i++)
        {
            var start = boundaries[i];
            all.TemperatureC[i] = atTemperature.At(start);
            while (atSpan < spans.Length && spans[atSpan].End <= start)
            {
                atSpan++;
            }

            if (atSpan < spans.Length && spans[atSpan].Start <= start)
            {
                var span = spans[atSpan];
                all.Place[i] = span.Place;
                all.DriveKwh[i] = span.DriveKwh * (all.Hours[i] / span.Hours);
                all.WallKw[i] = span.WallKw;
                all.Price[i] = span.Price;
            }
            else
            {
                while (atPrice + 1 < prices.Count && prices[atPrice + 1].Start <= start)
                {
                    atPrice++;
                }

                all.Price[i] = (double)prices[atPrice].ImportPerKwh;
                all.MostA[i] = current.Left(current.At(start), warmUp.PowerKw?[i] ?? 0, wholeAmperes);
                all.WallKw[i] = current.VoltsAcrossPhases * all.MostA[i] / 1000;
            }

            all.NetKw[i] = ChargingModel.NetRateKw(all.WallKw[i], all.TemperatureC[i], question.Vehicle.Constants);
        }

        return all;
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
        ChargingCase question, Trip[] trips, AwaySpan[][] spans, Instant[] boundaries, IntervalData intervals, LimitFrame frame)
    {
        var factor = Confidence.Factor(question.TripConfidence, question.Vehicle.Consumption.Spread);
        var departures = new DepartureTarget[trips.Length];
        for (var k = 0; k < trips.Length; k++)
        {
            var trip = trips[k];
            var from = Array.BinarySearch(boundaries, trip.Departure);
            var inside = trip.Departure < question.End;
            var until = inside ? Array.BinarySearch(boundaries, trip.Return) : from;
            var need = inside
                ? TripNeed.Of(spans[k], boundaries, from, until, intervals.Hours, intervals.NetKw, factor, frame.Minimum)
                : TripNeed.Beyond(spans[k], question, factor, frame.Minimum);
            var target = (trip.Target ?? question.DefaultTarget)?.Fraction * frame.Usable ?? 0;
            departures[k] = new DepartureTarget(
                from,
                until,
                Math.Min(frame.Extended, question.RequiredKwh?.TryGetValue(trip.Departure, out var asked) == true ? asked : Math.Max(target, need)),
                inside ? spans[k].Sum(s => s.DriveKwh) : 0,
                inside ? trip.Distance.Kilometres : 0)
            {
                NeedKwh = need,
                TargetKwh = target,
            };
        }

        return departures;
    }
}
