using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Core;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Writes the answer of <c>POST /v1/schedules</c>. No clock but the request's own: equal input gives equal bytes.</summary>
public static class ScheduleAnswerWriter
{
    private const int KwhDigits = 4, StateDigits = 5, PowerDigits = 3, DistanceDigits = 1;

    /// <summary>Writes the answer as UTF-8.</summary>
    public static byte[] Write(ScheduleRequest request, NightPlan plan)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(plan);
        var currency = request.RatePlan.Currency;
        var zone = request.Zone.Zone;
        return AnswerJson.Write(json =>
        {
            json.WriteString("outcome", plan.Outcome == NightOutcome.Ready ? "ready" : "short");
            json.WriteTime("asOf", request.AsOf, zone);
            json.WriteTime("start", plan.Problem.Boundaries[0], zone);
            json.WriteTime("end", plan.Problem.Boundaries[^1], zone);
            json.WriteString("ratePlan", request.RatePlan.Id);
            json.WriteRounded("currentA", plan.FullCurrentA, PowerDigits);
            json.WriteRounded("powerKw", plan.FullPowerKw, PowerDigits);
            WriteReadyAt(json, plan.Departures.Count > 0 ? plan.Departures[0].ReadyAt : null, zone);
            WriteShortfalls(
                json,
                plan.Departures.Sum(d => d.TripShortfallKwh),
                plan.Departures.Sum(d => d.TargetShortfallKwh),
                plan.Departures.Sum(d => d.ShortfallKm),
                request.Options.Unit);
            json.WriteMoney("cost", Money(plan.Cost, currency));
            json.WriteMoney("costOnArrival", Money(plan.CostOnArrival, currency));
            json.WriteRounded("extraEndKwhOnArrival", plan.ExtraEndKwhOnArrival, KwhDigits);
            json.WriteMoney("boundCost", Money(plan.BoundCost, currency));
            json.WriteBoolean("limitReached", plan.LimitReached);
            WriteWindows(json, plan, currency, zone);
            WriteDepartures(json, request, plan);
            WriteIntervals(json, plan, zone);
            json.WriteIgnored(request.Cars.SelectMany(c => c.Ignored));
            json.WriteSentences("cautions", Cautions.ForSupply(request.Cars[0].Supply));
            json.WriteSentences("warnings", request.Warnings.Concat(plan.Warnings));
        });
    }

    private static Money Money(double amount, string currency) => new((decimal)amount, currency);

    private static void WriteReadyAt(Utf8JsonWriter json, Instant? at, DateTimeZone zone)
    {
        if (at is { } instant)
        {
            json.WriteTime("readyAt", RoundedUp(instant), zone);
        }
        else
        {
            json.WriteNull("readyAt");
        }
    }

    // Ready a fraction of a second later is ready a second later, never earlier.
    private static Instant RoundedUp(Instant instant) =>
        Instant.FromUnixTimeSeconds((instant + Duration.FromSeconds(1) - Duration.Epsilon).ToUnixTimeSeconds());

    private static void WriteShortfalls(Utf8JsonWriter json, double tripKwh, double targetKwh, double km, DistanceUnit unit)
    {
        json.WriteRounded("tripShortfallKwh", tripKwh, KwhDigits);
        json.WriteRounded("targetShortfallKwh", targetKwh, KwhDigits);
        json.WriteRounded("shortfallKm", km, DistanceDigits);
        if (unit == DistanceUnit.Mile)
        {
            json.WriteRounded("shortfallMi", km / Distance.KilometresPerMile, DistanceDigits);
        }
    }

    private static void WriteWindows(Utf8JsonWriter json, NightPlan plan, string currency, DateTimeZone zone)
    {
        json.WriteStartArray("windows");
        foreach (var window in WindowFigures.Of(plan))
        {
            json.WriteStartObject();
            json.WriteTime("start", window.Start, zone);
            json.WriteTime("end", window.End, zone);
            json.WriteRounded("currentA", plan.FullCurrentA, PowerDigits);
            json.WriteRounded("powerKw", plan.FullPowerKw, PowerDigits);
            json.WriteRounded("energyKwh", window.WallKwh, KwhDigits);
            json.WriteMoney("cost", Money(window.Cost, currency));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteDepartures(Utf8JsonWriter json, ScheduleRequest request, NightPlan plan)
    {
        var usable = plan.Problem.UsableKwh;
        json.WriteStartArray("departures");
        foreach (var departure in plan.Departures)
        {
            var trip = request.Cars[0].Calendar.Trips.First(t => t.Departure == departure.Departure);
            json.WriteStartObject();
            json.WriteTime("departure", departure.Departure, request.Zone.Zone);
            if (trip.ShownDeparture is { } shown)
            {
                json.WriteString("shownDeparture", LocalDateTimePattern.GeneralIso.Format(shown));
            }

            json.WriteString("label", trip.Label);
            json.WriteRounded("distanceKm", trip.Distance.Kilometres, DistanceDigits);
            json.WriteRounded("requiredStateOfCharge", departure.RequiredKwh / usable, StateDigits);
            json.WriteRounded("stateOfCharge", departure.StoredKwh / usable, StateDigits);
            WriteReadyAt(json, departure.ReadyAt, request.Zone.Zone);
            WriteShortfalls(
                json, departure.TripShortfallKwh, departure.TargetShortfallKwh, departure.ShortfallKm, request.Options.Unit);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteIntervals(Utf8JsonWriter json, NightPlan plan, DateTimeZone zone)
    {
        var problem = plan.Problem;
        json.WriteStartArray("intervals");
        for (var i = 0; i < problem.Count; i++)
        {
            json.WriteStartObject();
            json.WriteTime("start", problem.Boundaries[i], zone);
            json.WriteTime("end", problem.Boundaries[i + 1], zone);
            json.WriteString("place", NameOf(problem.Place[i]));
            json.WriteRounded("temperatureC", problem.TemperatureC[i], 2);
            json.WriteRounded("pricePerKwh", problem.Price[i], 6);
            json.WriteRounded("chargingShare", plan.Shares[i], 4);
            json.WriteRounded("energyKwh", plan.Replay.WallKwh[i], KwhDigits);
            json.WriteRounded("stateOfChargeAtEnd", plan.Replay.StoredKwh[i + 1] / problem.UsableKwh, StateDigits);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static string NameOf(Place place) => place switch
    {
        Place.Home => "home",
        Place.Stop => "stop",
        _ => "road",
    };
}
