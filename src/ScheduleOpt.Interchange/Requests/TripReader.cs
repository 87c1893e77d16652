using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads one trip of a calendar.</summary>
internal sealed class TripReader(DocumentClock clock, StateOfCharge extendedLimit)
{
    /// <summary>The longest distance of a trip, in either unit.</summary>
    public const double MostKm = 3000;

    /// <summary>A trip lasts no longer than this.</summary>
    public static readonly Duration Longest = Duration.FromDays(31);

    private static readonly Limits Kilometres = new(0, MostKm, "km") { LowExcluded = true };
    private static readonly Limits Miles = new(0, 1864, "mi") { LowExcluded = true };

    /// <summary>Reads a trip as it stands, its recurrence apart.</summary>
    public TripDocument? Read(JsonField field)
    {
        if (field.Members(
            "departure", "return", "distanceKm", "distanceMi", "targetStateOfCharge", "label", "legs", "recurrence",
            "exceptDates") is not { } trip)
        {
            return null;
        }

        var before = trip.Faults.Count;
        var departure = clock.Read(trip.Required("departure"), DocumentClock.Use.Departure);
        var @return = clock.Read(trip.Required("return"), DocumentClock.Use.Return);
        var target = Target(trip.Optional("targetStateOfCharge"), extendedLimit);
        var label = trip.Optional("label")?.Text(200) ?? "";
        var distance = trip.Has("legs") ? ReadDistance(trip, isRequired: false) : ReadDistance(trip, isRequired: true);
        var recurrence = RecurrenceReader.Read(trip);
        var inOrder = departure is { } d && @return is { } r && CheckOrder(trip, d, r);
        var legs = trip.Optional("legs") is { } list && inOrder
            ? new LegsReader(clock).Read(list, departure!.Value.Instant, @return!.Value.Instant, distance)
            : null;
        if (trip.Has("legs") && recurrence is not null)
        {
            trip.Faults.Add(
                trip.Pointer("recurrence"), "A trip with legs can't recur here: its stops have dates. Give each day as a trip.");
        }

        if (trip.Faults.Count > before || !inOrder)
        {
            return null;
        }

        var plain = Trip.Plain(departure!.Value.Instant, @return!.Value.Instant, distance ?? Distance.Zero, target, label);
        var shown = departure.Value.Reading == LocalReading.Skipped ? departure.Value.Shown : (LocalDateTime?)null;
        var first = plain with { Legs = legs ?? plain.Legs, ShownDeparture = shown };
        return new(field.Pointer, first, departure.Value.Shown, @return.Value.Shown, recurrence);
    }

    /// <summary>Reads a target state of charge; it lies within the extended limit.</summary>
    public static StateOfCharge? Target(JsonField? field, StateOfCharge extendedLimit)
    {
        if (field?.Number(Limits.Fraction) is not { } fraction)
        {
            return null;
        }

        if (fraction > extendedLimit.Fraction)
        {
            field.Value.Fault($"Must not be above the vehicle's extendedLimit, which is {Plain.Number(extendedLimit.Fraction)}.");
            return null;
        }

        return StateOfCharge.FromFraction(fraction);
    }

    /// <summary>Reads <c>distanceKm</c> or <c>distanceMi</c>.</summary>
    public static Distance? ReadDistance(JsonMembers members, bool isRequired, string km = "distanceKm", string mi = "distanceMi")
    {
        var field = isRequired ? members.ExactlyOne(km, mi) : members.AtMostOne(km, mi);
        return members.Has(km)
            ? field?.Number(Kilometres) is { } kilometres ? Distance.FromKilometres(kilometres) : null
            : field?.Number(Miles) is { } miles ? Distance.FromMiles(miles) : null;
    }

    private static bool CheckOrder(JsonMembers trip, LocalMoment departure, LocalMoment @return)
    {
        if (@return.Instant <= departure.Instant)
        {
            trip.Optional("return")!.Value.Fault("Must be after the departure.");
            return false;
        }

        if (@return.Instant - departure.Instant > Longest)
        {
            trip.Optional("return")!.Value.Fault($"Must be within {Longest.Days} days of the departure.");
            return false;
        }

        return true;
    }
}
