using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Core;
using ScheduleOpt.Interchange.Outputs;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Writes the answer of <c>POST /v1/schedules</c>. No clock but the request's own: equal input gives equal bytes.</summary>
public static class ScheduleAnswerWriter
{
    private const int KwhDigits = 4, StateDigits = 5, PowerDigits = 3, DistanceDigits = 1;

    /// <summary>Writes the answer as UTF-8: a request that lists its cars is answered with a list of them.</summary>
    public static byte[] Write(ScheduleAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var request = answer.Request;
        var zone = request.Zone.Zone;
        return AnswerJson.Write(json =>
        {
            json.WriteString("outcome", NameOf(answer.Outcome));
            json.WriteTime("asOf", request.AsOf, zone);
            json.WriteTime("start", request.Span.Start, zone);
            json.WriteTime("end", request.Span.End, zone);
            json.WriteString("ratePlan", request.RatePlan.Id);
            if (request.CarsAreListed)
            {
                WriteShortfalls(json, answer.Cars.SelectMany(c => c.Departures).ToArray(), request.Options.Unit);
                WriteMoney(json, answer);
                WriteCars(json, answer);
            }
            else
            {
                WriteHead(json, request, answer.Cars[0]);
                WriteMoney(json, answer);
                WriteBody(json, request, answer.Cars[0]);
            }

            json.WriteSentences("cautions", Cautions.ForSchedule(request));
            json.WriteSentences("warnings", request.Warnings.Concat(answer.Warnings).Concat(answer.DearerThanArrival is { } why ? [why] : []));
        });
    }

    private static void WriteCars(Utf8JsonWriter json, ScheduleAnswer answer)
    {
        json.WriteStartArray("cars");
        foreach (var car in answer.Cars)
        {
            json.WriteStartObject();
            json.WriteString("name", car.Car.Name);
            json.WriteString("outcome", NameOf(car.Outcome));
            WriteHead(json, answer.Request, car);
            WriteBody(json, answer.Request, car);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteHead(Utf8JsonWriter json, ScheduleRequest request, CarAnswer car)
    {
        json.WriteRounded("currentA", car.CurrentA, PowerDigits);
        json.WriteRounded("powerKw", car.PowerKw, PowerDigits);
        WriteReadyAt(json, car.Departures.Count > 0 ? car.Departures[0].ReadyAt : null, request.Zone.Zone);
        WriteShortfalls(json, car.Departures, request.Options.Unit);
    }

    private static void WriteMoney(Utf8JsonWriter json, ScheduleAnswer answer)
    {
        var currency = answer.Request.RatePlan.Currency;
        json.WriteMoney("cost", AnswerJson.Money(answer.Cost, currency));
        if (answer.CarbonCost is { } carbon)
        {
            json.WriteMoney("carbonCost", AnswerJson.Money(carbon, currency));
        }

        json.WriteMoney("costOnArrival", AnswerJson.Money(answer.CostOnArrival, currency));
        json.WriteRounded("extraEndKwhOnArrival", answer.ExtraEndKwhOnArrival, KwhDigits);
        json.WriteMoney("boundCost", AnswerJson.Money(answer.BoundCost, currency));
        json.WriteMoney("gap", AnswerJson.Money(answer.Gap, currency));
        json.WriteString("route", JsonNamingPolicy.CamelCase.ConvertName(answer.Route.ToString()));
        json.WriteBoolean("limitReached", answer.LimitReached);
    }

    private static void WriteBody(Utf8JsonWriter json, ScheduleRequest request, CarAnswer car)
    {
        var (currency, zone) = (request.RatePlan.Currency, request.Zone.Zone);
        WriteWindows(json, car, currency, zone);
        WriteDepartures(json, request, car);
        ExplanationWriter.Write(json, car, currency, zone);
        if (request.Options.ChargingProfile is { } choice)
        {
            ChargingProfileWriter.WriteMember(json, "chargingProfile", ChargingProfileBuilder.Build(request, car, choice));
        }

        WriteIntervals(json, car, zone);
        json.WriteIgnored(car.Car.Ignored);
    }

    private static string NameOf(NightOutcome outcome) => outcome == NightOutcome.Ready ? "ready" : "short";

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

    private static void WriteShortfalls(Utf8JsonWriter json, IReadOnlyList<DepartureForecast> departures, DistanceUnit unit)
    {
        json.WriteRounded("tripShortfallKwh", departures.Sum(d => d.TripShortfallKwh), KwhDigits);
        json.WriteRounded("targetShortfallKwh", departures.Sum(d => d.TargetShortfallKwh), KwhDigits);
        var km = departures.Sum(d => d.ShortfallKm);
        json.WriteRounded("shortfallKm", km, DistanceDigits);
        if (unit == DistanceUnit.Mile)
        {
            json.WriteRounded("shortfallMi", km / Distance.KilometresPerMile, DistanceDigits);
        }
    }

    private static void WriteWindows(Utf8JsonWriter json, CarAnswer car, string currency, DateTimeZone zone)
    {
        var volts = car.Car.Supply.VoltsAcrossPhases;
        json.WriteStartArray("windows");
        foreach (var window in car.Windows)
        {
            json.WriteStartObject();
            json.WriteTime("start", window.Start, zone);
            json.WriteTime("end", window.End, zone);
            json.WriteRounded("currentA", window.CurrentA, PowerDigits);
            json.WriteRounded("powerKw", window.CurrentA * volts / 1000, PowerDigits);
            json.WriteRounded("energyKwh", window.WallKwh, KwhDigits);
            json.WriteMoney("cost", AnswerJson.Money(window.Cost, currency));
            json.WriteString("uid", window.Uid);
            json.WriteNumber("sequence", window.Sequence);
            if (window.Steps.Count > 1)
            {
                WriteSteps(json, window, zone);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteSteps(Utf8JsonWriter json, WindowAnswer window, DateTimeZone zone)
    {
        json.WriteStartArray("steps");
        foreach (var step in window.Steps)
        {
            json.WriteStartObject();
            json.WriteTime("start", step.Start, zone);
            json.WriteTime("end", step.End, zone);
            json.WriteRounded("currentA", step.CurrentA, PowerDigits);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteDepartures(Utf8JsonWriter json, ScheduleRequest request, CarAnswer car)
    {
        json.WriteStartArray("departures");
        foreach (var departure in car.Departures)
        {
            var trip = car.Car.Calendar.Trips.First(t => t.Departure == departure.Departure);
            json.WriteStartObject();
            json.WriteTime("departure", departure.Departure, request.Zone.Zone);
            if (trip.ShownDeparture is { } shown)
            {
                json.WriteString("shownDeparture", LocalDateTimePattern.GeneralIso.Format(shown));
            }

            json.WriteString("label", trip.Label);
            json.WriteRounded("distanceKm", trip.Distance.Kilometres, DistanceDigits);
            json.WriteRounded("requiredStateOfCharge", departure.RequiredKwh / car.UsableKwh, StateDigits);
            json.WriteRounded("stateOfCharge", departure.StoredKwh / car.UsableKwh, StateDigits);
            WriteReadyAt(json, departure.ReadyAt, request.Zone.Zone);
            WriteShortfalls(json, [departure], request.Options.Unit);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteIntervals(Utf8JsonWriter json, CarAnswer car, DateTimeZone zone)
    {
        json.WriteStartArray("intervals");
        foreach (var interval in car.Intervals)
        {
            json.WriteStartObject();
            json.WriteTime("start", interval.Start, zone);
            json.WriteTime("end", interval.End, zone);
            json.WriteString("place", NameOf(interval.Place));
            json.WriteRounded("temperatureC", interval.TemperatureC, 2);
            json.WriteRounded("pricePerKwh", interval.PricePerKwh, 6);
            json.WriteRounded("chargingShare", interval.Share, 4);
            json.WriteRounded("energyKwh", interval.WallKwh, KwhDigits);
            json.WriteRounded("stateOfChargeAtEnd", interval.StoredKwhAtEnd / car.UsableKwh, StateDigits);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>The word for a place.</summary>
    internal static string NameOf(Place place) => place switch
    {
        Place.Home => "home",
        Place.Stop => "stop",
        _ => "road",
    };
}
