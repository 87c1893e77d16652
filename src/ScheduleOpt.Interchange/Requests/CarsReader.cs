using NodaTime;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the cars of a schedule request: a list of them, or the one whose parts stand in the request itself.</summary>
internal sealed class CarsReader(DocumentClock clock, Instant? asOf, RunningRules running, List<string> warnings)
{
    /// <summary>The most cars of a household.</summary>
    public const int Most = 4;

    private const int LongestName = 60;

    private static readonly string[] Parts = ["vehicle", "supply", "plugIn", "calendar"];

    /// <summary>Reads the cars; faulty ones are left out, their faults noted.</summary>
    public IReadOnlyList<CarRequest> Read(JsonMembers body)
    {
        if (!body.Has("cars"))
        {
            return One(body) is { } car ? [car] : [];
        }

        foreach (var part in Parts.Where(body.Has))
        {
            body.Faults.Add(body.Pointer(part), "Each of cars has its own; either cars is given, or vehicle, supply, plugIn and calendar.");
        }

        var cars = new List<CarRequest>();
        foreach (var item in body.Optional("cars")!.Value.Items(1, Most, "cars") ?? [])
        {
            if (Listed(item) is not { } car)
            {
                continue;
            }

            if (cars.Any(c => c.Name == car.Name))
            {
                item.Faults.Add($"{item.Pointer}/name", "Must be unique among the cars.", car.Name);
            }

            cars.Add(car);
        }

        return cars;
    }

    private CarRequest? Listed(JsonField item)
    {
        if (item.Members(
            "name", "vehicle", "supply", "plugIn", "calendar", "targetStateOfCharge", "running", "previous", "outlet") is not { } car)
        {
            return null;
        }

        var before = car.Faults.Count;
        var name = Name(car.Required("name", "Every car has a name."));
        var read = One(car);
        var target = TripReader.Target(car.Optional("targetStateOfCharge"), VehicleReader.ExtendedLimitOf(read?.Vehicle));
        var rules = RunningReader.Read(car.Optional("running"), running);
        var previous = PreviousReader.ReadCar(car.Optional("previous"), clock);
        var outlet = ChargingProfileReader.Outlet(car);

        // What a car lacks need not be at fault in the car: without a zone, or the time of asking, nothing is known of when it is plugged in.
        return car.Faults.Count > before || read is null
            ? null
            : read with { Name = name!, Target = target, Running = rules, Previous = previous, Outlet = outlet };
    }

    private CarRequest? One(JsonMembers car)
    {
        var vehicle = VehicleReader.Read(car.Required("vehicle"));
        var supply = SupplyReader.Read(car.Required("supply"));
        var plugIn = PlugInDocument.Read(car.Required("plugIn"), asOf, clock);
        var calendar = new CalendarReader(clock, VehicleReader.ExtendedLimitOf(vehicle)).Read(car.Required("calendar"), SpanOf(plugIn));
        if (plugIn is not null && calendar is not null)
        {
            CheckHome(car, plugIn, calendar.Trips);
            warnings.AddRange(calendar.Warnings);
        }

        return vehicle is null || supply is null || plugIn is null || calendar is null
            ? null
            : new CarRequest
            {
                Vehicle = vehicle,
                Supply = supply,
                PlugIn = plugIn,
                Calendar = new DrivingCalendar(calendar.Trips),
                Ignored = calendar.Ignored,
                Running = running,
            };
    }

    // A day more than the longest schedule: a departure at its very end still asks for its energy.
    private static Interval? SpanOf(PlugInDocument? plugIn) =>
        plugIn is null ? null : new Interval(plugIn.At, plugIn.At + Duration.FromDays(OptionsReader.MostDays + 1));

    private void CheckHome(JsonMembers car, PlugInDocument plugIn, IEnumerable<Trip> trips)
    {
        if (trips.FirstOrDefault(t => t.Departure <= plugIn.At && t.Return > plugIn.At) is { } away)
        {
            car.Faults.Add(
                car.Pointer("plugIn"),
                $"The car must be at home when it is plugged in; a trip of the calendar is under way then, "
                + $"from {clock.Stamp(away.Departure)} to {clock.Stamp(away.Return)}.",
                clock.Stamp(plugIn.At));
        }
    }

    private static string? Name(JsonField? field)
    {
        if (field?.Text(LongestName) is not { } name)
        {
            return null;
        }

        if (!string.IsNullOrWhiteSpace(name) && !name.Any(char.IsControl))
        {
            return name;
        }

        field.Value.Fault("Must not be blank nor hold control characters.");
        return null;
    }
}
