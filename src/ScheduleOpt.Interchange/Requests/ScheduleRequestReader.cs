using NodaTime;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the body of <c>POST /v1/schedules</c>.</summary>
public static class ScheduleRequestReader
{
    /// <summary>Reads a request.</summary>
    /// <returns>The request, or every fault with its JSON pointer, what must hold and what was found.</returns>
    public static Reading<ScheduleRequest> Read(JsonText json)
    {
        ArgumentNullException.ThrowIfNull(json);
        var faults = new FaultList();
        var request = Read(new JsonField(json.Root, "#", faults));
        return faults.Count > 0 ? Reading<ScheduleRequest>.Refused(faults.ToList()) : request!;
    }

    private static ScheduleRequest? Read(JsonField root)
    {
        if (root.Members(
            "asOf", "timeZone", "vehicle", "supply", "plugIn", "calendar", "ratePlan", "prices", "events", "carriedState", "readingDates", "weather",
            "houseLoad", "options") is not { } body)
        {
            return null;
        }

        var warnings = new List<string>();
        var zone = ZoneReader.Read(body.Required("timeZone"));
        var clock = new DocumentClock(zone, warnings);
        var asOf = clock.Read(body.Required("asOf"), DocumentClock.Use.Return)?.Instant;
        var vehicle = VehicleReader.Read(body.Required("vehicle"));
        var extended = VehicleReader.ExtendedLimitOf(vehicle);
        var supply = SupplyReader.Read(body.Required("supply"));
        var plugIn = PlugInDocument.Read(body.Required("plugIn"), asOf, clock);
        var calendar = new CalendarReader(clock, extended).Read(body.Required("calendar"), SpanOf(plugIn));
        var chosen = RatePlanChoice.Read(body.Required("ratePlan"));
        var beside = new BesideThePlans(body, clock, chosen is null ? null : [chosen]);
        var state = CarriedStateReader.Read(body.Optional("carriedState"), clock, chosen?.Plan);
        var readingDates = BillRequestReader.Dates(body.Optional("readingDates"));
        var weather = new WeatherReader(clock).Read(body.Required("weather"));
        var house = HouseLoadReader.Read(body.Optional("houseLoad"), clock, warnings);
        var options = OptionsReader.ForSchedule(body.Optional("options"), extended);
        if (plugIn is not null && calendar is not null)
        {
            CheckHome(body, plugIn, calendar.Trips, clock);
        }

        if (chosen is not null)
        {
            Interval? horizon = plugIn is null || calendar is null || clock.Zone is null
                ? null
                : new Interval(plugIn.At, Horizon.End(plugIn.At, options.HorizonDays, new DrivingCalendar(calendar.Trips)));
            beside.CheckPrices(chosen, horizon, " Give it, or ask for fewer days: options/horizonDays.", warnings);
        }

        if (body.Faults.Count > 0)
        {
            return null;
        }

        var plan = chosen!.Plan;
        warnings.AddRange(calendar!.Warnings);
        warnings.AddRange(chosen.Warnings);
        if (plan.Zone.Id != zone!.Zone.Id)
        {
            warnings.Add($"The rate plan's clock is that of {plan.Zone.Id}, the household's that of {zone.Zone.Id}.");
        }

        if (house is null && plan.EnergyCharges.Any(c => c.HasBlocks))
        {
            warnings.Add("The rate plan has blocks and there is no houseLoad: prices are those of the block that usedSoFarKwh has reached.");
        }

        if (house is not null && plan.Metering != Metering.WholeHouse)
        {
            warnings.Add("The rate plan is for the car's own meter: the house's use is not on it and does not fill its blocks.");
        }

        return new ScheduleRequest
        {
            AsOf = asOf!.Value,
            Zone = zone,
            Vehicle = vehicle!,
            Supply = supply!,
            PlugIn = plugIn!,
            Calendar = new DrivingCalendar(calendar.Trips),
            Ignored = calendar.Ignored,
            RatePlan = plan,
            RatePlanInput = beside.For(chosen) with { State = state },
            ReadingDates = readingDates,
            Weather = weather!,
            HouseLoadKwh = house,
            Options = options,
            Warnings = warnings,
        };
    }

    // A day more than the longest schedule: a departure at its very end still asks for its energy.
    private static Interval? SpanOf(PlugInDocument? plugIn) =>
        plugIn is null ? null : new Interval(plugIn.At, plugIn.At + Duration.FromDays(OptionsReader.MostDays + 1));

    private static void CheckHome(JsonMembers body, PlugInDocument plugIn, IEnumerable<Trip> trips, DocumentClock clock)
    {
        if (trips.FirstOrDefault(t => t.Departure <= plugIn.At && t.Return > plugIn.At) is { } away)
        {
            body.Faults.Add(
                body.Pointer("plugIn"),
                $"The car must be at home when it is plugged in; a trip of the calendar is under way then, "
                + $"from {clock.Stamp(away.Departure)} to {clock.Stamp(away.Return)}.",
                clock.Stamp(plugIn.At));
        }
    }
}
