using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;
using Spectre.Console;

namespace ScheduleOpt.Cli.Screens;

/// <summary>Shows tonight's answer: when to charge, what it costs, how ready each car will be.</summary>
internal sealed class NightScreen(Screen screen, ScheduleAnswer answer, Units units)
{
    private readonly ScheduleRequest request = answer.Request;
    private readonly LocalTimes times = new(answer.Request.Zone.Zone, answer.Request.Span.Start, answer.Request.Span.End);
    private readonly string currency = answer.Request.RatePlan.Currency;

    /// <summary>Puts the answer on the page, without cautions.</summary>
    public void Draw()
    {
        screen.Say($"Asked {times.InFull(request.AsOf)}.");
        if (request.CarsAreListed)
        {
            DrawCars();
        }
        else
        {
            Situation(answer.Cars[0]);
            screen.Say($"Rate plan: {request.RatePlan.Name}, {request.RatePlan.Utility}.");
            Household();
            screen.Blank();
            Outcome(answer.Cars[0]);
            Windows(answer.Cars[0]);
            Money();
            screen.Blank();
            new NightChart(screen, answer, answer.Cars[0], times, units).Draw();
            Departures(answer.Cars[0]);
            Confidence();
            Reasons(answer.Cars[0]);
        }

        Notes();
    }

    private void DrawCars()
    {
        screen.Say($"Rate plan: {request.RatePlan.Name}, {request.RatePlan.Utility}.");
        Household();
        foreach (var car in answer.Cars)
        {
            screen.Blank();
            screen.Heading(car.Car.Name);
            Situation(car);
            Outcome(car);
            Windows(car);
            new NightChart(screen, answer, car, times, units).Draw();
            Departures(car);
            Reasons(car);
        }

        screen.Blank();
        screen.Heading("All cars");
        Money();
        Confidence();
    }

    private void Situation(CarAnswer car)
    {
        var (supply, vehicle, plugIn) = (car.Car.Supply, car.Car.Vehicle, car.Car.PlugIn);
        screen.Say(
            $"Car: {Figures.Plain(vehicle.UsableEnergy.KilowattHours)} kWh usable, at {Figures.State(plugIn.StateOfCharge.Fraction)}"
            + (plugIn.At > request.AsOf ? $" when it is plugged in, {times.Of(plugIn.At)}." : ", plugged in."));
        screen.Say(
            $"Supply: {supply.VoltageV} V{(supply.Phases == 3 ? ", 3 phases" : "")}, breaker {Figures.Plain(supply.BreakerA)} A, "
            + $"{(supply.Connection == SupplyConnection.Hardwired ? "hardwired" : "receptacle")}: "
            + $"charges with {(car.Car.Running.Adjustable ? "up to " : "")}{Amperes(car.CurrentA)}, {Figures.Number(car.PowerKw)} kW.");
    }

    /// <summary>What the cars and the rest of the house have in common.</summary>
    private void Household()
    {
        if (request.SharedCircuitA is { } shared)
        {
            screen.Say($"One circuit for all cars: {Amperes(shared)} together.");
        }

        if (request.ImportLimitKw is { } limit)
        {
            screen.Say($"The whole house takes at most {Figures.Plain(limit)} kW from the grid.");
        }

        if (request.Solar is { } solar)
        {
            screen.Say($"Solar roof: {Figures.Number(solar.Values.Max())} kW at best in the days planned.");
        }
    }

    private void Outcome(CarAnswer car)
    {
        if (car.Outcome == NightOutcome.Ready)
        {
            screen.Say(
                car.Departures.Count == 0
                    ? "READY: no departure lies in the days planned."
                    : $"READY for every departure until {times.Day(request.Span.End)}.",
                "bold green");
            return;
        }

        foreach (var d in car.Departures)
        {
            if (d.TripShortfallKwh > NightPlanner.NegligibleKwh)
            {
                screen.Say(
                    $"SHORT: the trip of {times.Of(d.Departure)} needs {Figures.Kwh(d.TripShortfallKwh)} more than the battery can "
                    + $"have, about {units.Far(d.ShortfallKm)}: charge that much on the way.",
                    "bold yellow");
            }
            else if (d.TargetShortfallKwh > NightPlanner.NegligibleKwh)
            {
                screen.Say(
                    $"SHORT: at {times.Of(d.Departure)} the car will have {Figures.Kwh(d.TargetShortfallKwh)} less than it should; "
                    + "an average trip is covered all the same.",
                    "bold yellow");
            }
        }
    }

    private void Windows(CarAnswer car)
    {
        if (car.Windows.Count == 0)
        {
            screen.Say("Nothing needs to be charged.");
            return;
        }

        // The current has a column only where it is not always the same.
        var changes = car.Windows.SelectMany(w => w.Steps).Any(s => Math.Abs(s.CurrentA - car.CurrentA) >= 0.05);
        var table = changes
            ? Columns.Of("Charging window", ">Current", ">How long", ">Energy", ">Cost")
            : Columns.Of("Charging window", ">How long", ">Energy", ">Cost");
        foreach (var step in car.Windows.SelectMany(w => w.Steps))
        {
            string[] cells =
            [
                times.Span(step.Start, step.End),
                .. changes ? [Amperes(step.CurrentA)] : Array.Empty<string>(),
                Figures.Hours((step.End - step.Start).TotalHours),
                Figures.Kwh(step.WallKwh),
                Figures.Money(step.Cost, currency),
            ];
            table.Row(null, cells);
        }

        screen.Draw(table);
    }

    private void Money()
    {
        var saved = answer.CostOnArrival - answer.Cost;
        var days = Figures.Plain(Math.Round((request.Span.End - request.Span.Start).TotalDays, 1));
        var differences = Differences().ToArray();
        screen.Say(
            $"In {days} days: {Figures.Money(answer.Cost, currency)}. Charging on arrival: {Figures.Money(answer.CostOnArrival, currency)}, "
            + $"{Figures.Money(Math.Abs(saved), currency)} {(saved >= 0 ? "more" : "less")}"
            + (differences.Length > 0 ? $"; it leaves {string.Join(" and ", differences)}." : "."));
        if (answer.DearerThanArrival is { } why)
        {
            screen.Say(why);
        }

        if (answer.CarbonCost is { } carbon)
        {
            screen.Say($"At the carbon price asked for, its emissions count as {Figures.Money(carbon, currency)} beside the bill.");
        }
    }

    /// <summary>What makes the two costs not quite comparable.</summary>
    private IEnumerable<string> Differences()
    {
        var extra = Math.Round(answer.ExtraEndKwhOnArrival, 1);
        if (extra != 0)
        {
            yield return $"{Figures.Kwh(Math.Abs(extra))} {(extra > 0 ? "more" : "less")} in the battery at the end";
        }

        var onTheWay = Math.Round(answer.ExtraAwayKwhOnArrival, 1);
        if (onTheWay != 0)
        {
            yield return $"{Figures.Kwh(Math.Abs(onTheWay))} {(onTheWay > 0 ? "more" : "less")} to charge on the way";
        }
    }

    private void Departures(CarAnswer car)
    {
        if (car.Departures.Count == 0)
        {
            return;
        }

        var table = Columns.Of("Departure", "Trip", ">Distance", ">Needs", ">Has", "Ready from");
        table.Columns[0].NoWrap = true;
        foreach (var d in car.Departures)
        {
            var trip = car.Car.Calendar.Trips.First(t => t.Departure == d.Departure);
            table.Row(
                IsShort(d) ? new Style(Color.Yellow) : default(Style?),
                times.Of(d.Departure),
                trip.Label.Length > 0 ? trip.Label : "Trip",
                units.Far(trip.Distance.Kilometres),
                Figures.State(d.RequiredKwh / car.UsableKwh),
                Has(d, car.UsableKwh),
                Ready(d));
        }

        screen.Draw(table);
    }

    private void Reasons(CarAnswer car)
    {
        var lines = new ReasonLines(car, times, currency).All().ToArray();
        if (lines.Length > 0)
        {
            screen.Blank();
            screen.List(lines);
        }
    }

    private void Confidence()
    {
        if (answer.Cars.All(c => c.Departures.Count == 0))
        {
            return;
        }

        var least = answer.Cars.Select(c => c.Car.Vehicle.Minimum.Fraction).Distinct().Select(Figures.State);
        screen.Say(
            $"Needs: the trip with {Figures.Whole(100 * request.Options.TripConfidence)} % confidence at the temperature expected, and "
            + $"{string.Join(" or ", least)} left at home; or the target, if that is more.");
    }

    private static bool IsShort(DepartureForecast d) =>
        Math.Max(d.TripShortfallKwh, d.TargetShortfallKwh) > NightPlanner.NegligibleKwh;

    // A little short must not look like enough.
    private static string Has(DepartureForecast d, double usableKwh)
    {
        var state = d.StoredKwh / usableKwh;
        return IsShort(d) ? $"{Figures.Number(Math.Floor(1000 * state) / 10)} %" : Figures.State(state);
    }

    private string Ready(DepartureForecast d) => (IsShort(d), d.ReadyAt) switch
    {
        (true, null) => "SHORT",
        (true, { } at) => $"SHORT until {times.NotBefore(at, d.Departure)}",
        (false, { } at) => times.NotBefore(at),
        _ => "at departure",
    };

    private void Notes()
    {
        var ignored = answer.Cars.SelectMany(c => c.Car.Ignored).ToArray();
        var notes = request.Warnings.Concat(answer.Warnings)
            .Concat(answer.GapIsFine ? [] : [$"This is within {Figures.Money(answer.Gap, currency)} of the least that can be reached."])
            .Concat(ignored.Take(5).Select(i => $"Not a trip: {(i.Label.Length > 0 ? i.Label : "an event")}, line {i.Line}: {i.Reason}"))
            .Concat(ignored.Length > 5 ? [$"{ignored.Length - 5} more events of the calendar are not trips."] : [])
            .ToArray();
        if (notes.Length > 0)
        {
            screen.Blank();
            screen.List(notes);
        }
    }

    private static string Amperes(double amperes) => $"{Figures.Plain(Math.Round(amperes, 1))} A";
}
