using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Comparison.Tonight.Replanning;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Puts a request in the words of the planner.</summary>
public static class ScheduleQuestion
{
    private const double GramsPerTonne = 1e6;

    /// <summary>The question that a request asks.</summary>
    public static NightQuestion Of(ScheduleRequest request) => new(HouseholdOf(request), request.Options.ShortfallOrder);

    /// <summary>The question that a request asks for its household.</summary>
    public static HouseholdCase HouseholdOf(ScheduleRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var house = ExpectedHouse.Of(request);
        var (start, end) = (request.Span.Start, request.Span.End);
        var prices = PriceScheduleBuilder.Build(
            request.RatePlan, start, end, house?.OnTheBill, request.Options.UsedSoFar, request.ReadingDates,
            request.RatePlanInput with { Export = house?.Exported }, request.Options.DemandSoFarKw);

        // A departure at the very end asks for the energy of a trip that lies beyond it.
        var temperatures = request.Weather.Over(start, end + TripReader.Longest, request.Zone);
        return new HouseholdCase
        {
            Cars = [.. request.Cars.Select(car => new CarCase(car.Name, CaseOf(request, car, prices, temperatures), car.Running))],
            House = house?.Power,
            Solar = request.Solar is { } solar ? new(solar.Start, solar.Interval, solar.Values) : null,
            ImportLimitKw = request.ImportLimitKw,
            SharedCircuitA = request.SharedCircuitA,
            CarbonPrice = request.Carbon is { } carbon ? CarbonPrices(carbon, start, end) : null,
        };
    }

    private static ChargingCase CaseOf(ScheduleRequest request, CarRequest car, PriceSchedule prices, TemperatureForecast temperatures)
    {
        var (options, zone) = (request.Options, request.Zone);
        var (start, end) = (request.Span.Start, request.Span.End);
        var excluded = options.NoCharging.SelectMany(hours => hours.Within(zone, start, end));
        var limits = options.CurrentLimits.SelectMany(limit => limit.Hours.Within(zone, start, end).Select(hours => new CurrentLimit(hours, limit.MostA)));
        return new ChargingCase
        {
            Start = start,
            End = end,
            GridStep = options.GridStep,
            Vehicle = car.Vehicle,
            Supply = car.Supply,
            PluggedInAt = PluggedInAt(car),
            Calendar = car.Calendar,
            Prices = prices,
            Temperatures = temperatures,
            DefaultTarget = car.Target,
            TripConfidence = options.TripConfidence,

            // A car that comes later than the first stands there without a plug.
            NoCharging = [.. car.PlugIn.At > start ? [new Interval(start, car.PlugIn.At)] : Array.Empty<Interval>(), .. excluded],

            // What all may take together, each alone may not exceed.
            CurrentLimits = [.. request.SharedCircuitA is { } most ? [new CurrentLimit(request.Span, most)] : Array.Empty<CurrentLimit>(), .. limits],
            FinishMargin = options.FinishMargin,
            WarmUp = options.WarmUp,
            Ageing = options.Ageing,
        };
    }

    /// <summary>Of a car in mid-window, what the earlier answer expected where the report agrees with it.</summary>
    private static StateOfCharge PluggedInAt(CarRequest car)
    {
        var reported = car.PlugIn.StateOfCharge;
        if (car.Previous?.ExpectedState is not { } expected)
        {
            return reported;
        }

        var usable = car.Vehicle.UsableEnergy.KilowattHours;
        var from = MeasuredState.ToPlanFrom(reported.Fraction * usable, expected.Fraction * usable, usable);
        return from == reported.Fraction * usable ? reported : expected;
    }

    /// <summary>Price of emissions over a span: the nearest value holds where the forecast does not reach.</summary>
    private static List<PriceSpan> CarbonPrices(CarbonDocument carbon, Instant start, Instant end)
    {
        PriceSpan At(Instant from, double grams) => new(from, carbon.PricePerTonne * (decimal)grams / (decimal)GramsPerTonne, "carbon");

        if (carbon.Hourly is not { } hourly)
        {
            return [At(start, carbon.GramsPerKwh ?? 0)];
        }

        var first = Math.Clamp((int)Math.Floor((start - hourly.Start) / hourly.Interval), 0, hourly.Values.Length - 1);
        var spans = new List<PriceSpan> { At(start, hourly.Values[first]) };
        for (var i = first + 1; i < hourly.Values.Length && hourly.Start + (hourly.Interval * i) < end; i++)
        {
            if (hourly.Start + (hourly.Interval * i) is var from && from > start && hourly.Values[i] != hourly.Values[i - 1])
            {
                spans.Add(At(from, hourly.Values[i]));
            }
        }

        return spans;
    }
}
