using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Scheduling.Households;
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
            "asOf", "timeZone", "vehicle", "supply", "plugIn", "calendar", "cars", "sharedCircuit", "importLimitKw", "ratePlan", "prices", "events",
            "carriedState", "readingDates", "weather", "houseLoad", "solar", "carbon", "options") is not { } body)
        {
            return null;
        }

        var warnings = new List<string>();
        var zone = ZoneReader.Read(body.Required("timeZone"));
        var clock = new DocumentClock(zone, warnings);
        var asOf = clock.Read(body.Required("asOf"), DocumentClock.Use.Return)?.Instant;
        var settings = OptionsReader.OpenForSchedule(body.Optional("options"));
        var running = RunningReader.Read(settings?.Optional("running"), RunningRules.FullCurrent);
        var cars = new CarsReader(clock, asOf, running, warnings).Read(body);
        var options = Options(settings, clock, body.Has("cars"), running, ref cars);
        var shared = SharedCircuitReader.Read(body, cars);
        var importLimit = body.Optional("importLimitKw")?.Number(new(0.5, 1000, "kW"));
        var chosen = RatePlanChoice.Read(body.Required("ratePlan"));
        options = options with { DemandSoFarKw = DemandSoFarReader.Read(settings?.Optional("demandSoFarKw"), chosen?.Plan) };
        var beside = new BesideThePlans(body, clock, chosen is null ? null : [chosen]);
        var state = CarriedStateReader.Read(body.Optional("carriedState"), clock, chosen?.Plan);
        var readingDates = BillRequestReader.Dates(body.Optional("readingDates"));
        var weather = new WeatherReader(clock).Read(body.Required("weather"));
        var house = HouseLoadReader.Read(body.Optional("houseLoad"), clock, warnings);
        var solar = ForecastReader.Read(body.Optional("solar"), clock, "powerKw", new(0, 1000, "kW"));
        var carbon = CarbonReader.Read(body.Optional("carbon"), clock);
        Interval? span = cars.Count == 0 || clock.Zone is null ? null : PlannedSpan.Of(cars, options.HorizonDays);
        if (chosen is not null)
        {
            beside.CheckPrices(chosen, span, " Give it, or ask for fewer days: options/horizonDays.", warnings);
        }

        if (body.Faults.Count > 0)
        {
            return null;
        }

        var plan = chosen!.Plan;
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

        warnings.AddRange(CurrentLimitWarnings.Of(options.CurrentLimits, cars));
        warnings.AddRange(RunningWarnings.Of(options.GridStep, cars));
        weather = ForecastCover.Of(weather!, span!.Value, clock, ShownUnits.For(options.Unit), warnings);
        AddWarnings(span.Value, clock, house is not null, importLimit, solar, carbon, warnings);
        return new ScheduleRequest
        {
            AsOf = asOf!.Value,
            Zone = zone,
            Cars = cars,
            CarsAreListed = body.Has("cars"),
            Span = span.Value,
            SharedCircuitA = shared,
            ImportLimitKw = importLimit,
            Solar = solar,
            Carbon = carbon,
            RatePlan = plan,
            RatePlanInput = beside.For(chosen) with { State = state },
            ReadingDates = readingDates,
            Weather = weather,
            HouseLoadKwh = house,
            Options = options,
            Warnings = warnings,
        };
    }

    private static ScheduleOptions Options(
        JsonMembers? settings, DocumentClock clock, bool isListed, RunningRules running, ref IReadOnlyList<CarRequest> cars)
    {
        var extended = cars.Select(c => c.Vehicle.ExtendedLimit).OrderBy(limit => limit.Fraction).FirstOrDefault(StateOfCharge.FromFraction(1));
        var options = OptionsReader.ForSchedule(settings, extended, running);
        var (previous, keep) = PreviousReader.ReadOptions(settings?.Optional("previous"), clock, isListed);
        var (profile, outlet) = ChargingProfileReader.Read(settings?.Optional("chargingProfile"), isListed);
        cars = [.. cars.Select(car => car with
        {
            Target = car.Target ?? options.Target,
            Previous = isListed ? car.Previous : previous,
            Outlet = isListed ? car.Outlet : outlet,
        })];
        return options with { KeepUnlessCheaperBy = keep, ChargingProfile = profile };
    }

    private static void AddWarnings(
        Interval span, DocumentClock clock, bool knowsHouse, double? importLimit, Forecast? solar, CarbonDocument? carbon, List<string> warnings)
    {
        if (!knowsHouse && (importLimit is not null || solar is not null))
        {
            warnings.Add("There is no houseLoad: the rest of the house is taken to use nothing.");
        }

        if (solar?.Covers(span) == false)
        {
            warnings.Add($"solar does not cover the time planned, {clock.Stamp(span.Start)} to {clock.Stamp(span.End)}; outside it there is taken to be none.");
        }

        if (carbon?.Hourly?.Covers(span) == false)
        {
            warnings.Add(
                $"carbon/gramsPerKwh does not cover the time planned, {clock.Stamp(span.Start)} to {clock.Stamp(span.End)}; outside it the nearest value is taken to hold.");
        }
    }
}
