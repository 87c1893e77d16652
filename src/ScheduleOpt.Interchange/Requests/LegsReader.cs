using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the legs of a trip and the stops between them.</summary>
internal sealed class LegsReader(DocumentClock clock)
{
    private const int MostLegs = 50;

    /// <summary>Prices of energy that a document may hold. [currency/kWh]</summary>
    public static readonly Limits PricePerKwh = new(-5, 20, "per kWh");

    // The sum of the legs may differ from the distance stated by this, for rounded figures.
    private const double ToleranceKm = 1;

    /// <summary>Reads the legs.</summary>
    public IReadOnlyList<TripLeg>? Read(JsonField field, Instant departure, Instant @return, Distance? stated)
    {
        if (field.Items(1, MostLegs, "legs") is not { } items)
        {
            return null;
        }

        var before = field.Faults.Count;
        var legs = new List<TripLeg>(items.Count);
        var start = departure;
        for (var i = 0; i < items.Count; i++)
        {
            if (items[i].Members("distanceKm", "distanceMi", "stop") is not { } leg)
            {
                continue;
            }

            var distance = TripReader.ReadDistance(leg, isRequired: true);
            var stop = Stop(leg, isLast: i == items.Count - 1);
            var end = stop?.From ?? @return;
            if (end <= start || stop?.Until >= @return)
            {
                leg.Faults.Add(
                    leg.Pointer("stop"),
                    "The times of departure, stops and return must follow one another, each later than the one before.");
            }
            else if (distance is { } length)
            {
                legs.Add(new TripLeg(length, start, end, start) { Stop = stop });
            }

            start = stop?.Until ?? start;
        }

        CheckSum(field, legs, items.Count, stated);
        return field.Faults.Count > before ? null : legs;
    }

    private static void CheckSum(JsonField field, List<TripLeg> legs, int count, Distance? stated)
    {
        var sum = legs.Sum(l => l.Distance.Kilometres);
        var found = $"they add up to {Plain.Number(Math.Round(sum, 1))} km.";
        if (sum > TripReader.MostKm)
        {
            field.Fault($"The legs must add up to at most {Plain.Number(TripReader.MostKm)} km; {found}");
        }
        else if (legs.Count == count && stated is { } total && Math.Abs(sum - total.Kilometres) > ToleranceKm)
        {
            field.Fault($"The legs must add up to the trip's distance, {Plain.Number(Math.Round(total.Kilometres, 1))} km; {found}");
        }
    }

    private TripStop? Stop(JsonMembers leg, bool isLast)
    {
        if (isLast)
        {
            if (leg.Has("stop"))
            {
                leg.Faults.Add(leg.Pointer("stop"), "The last leg ends at home; it has no stop.");
            }

            return null;
        }

        if (leg.Required("stop", "Every leg but the last ends at a stop.")?.Members(
            "from", "until", "chargingPowerKw", "pricePerKwh", "shareOfDays") is not { } stop)
        {
            return null;
        }

        var from = clock.Read(stop.Required("from"), DocumentClock.Use.Return);
        var until = clock.Read(stop.Required("until"), DocumentClock.Use.Departure);
        var power = stop.Number("chargingPowerKw", new(0, 400, "kW"), 0);
        var price = stop.Optional("pricePerKwh")?.Price(PricePerKwh) ?? 0;
        var share = stop.Number("shareOfDays", Limits.Fraction, 1);
        if (from is not { } arrival || until is not { } leaving)
        {
            return null;
        }

        if (leaving.Instant <= arrival.Instant)
        {
            stop.Optional("until")!.Value.Fault("Must be after the arrival at the stop (from).");
            return null;
        }

        return new TripStop(arrival.Instant, leaving.Instant)
        {
            ChargingPower = Power.FromKilowatts(power),
            PricePerKwh = price,
            ShareOfDays = share,
        };
    }
}
