using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Interchange.Requests;
using Spectre.Console;

namespace ScheduleOpt.Cli.Screens;

/// <summary>Shows tonight's answer: when to charge, what it costs, how ready the car will be.</summary>
internal sealed class NightScreen(Screen screen, ScheduleRequest request, NightQuestion question, NightPlan plan, Units units)
{
    private readonly LocalTimes times = new(request.Zone.Zone, plan.Problem.Boundaries[0], plan.Problem.Boundaries[^1]);
    private readonly string currency = request.RatePlan.Currency;

    /// <summary>Puts the answer on the page, without cautions.</summary>
    public void Draw()
    {
        Situation();
        screen.Blank();
        Outcome();
        Windows();
        Money();
        screen.Blank();
        new NightChart(screen, question, plan, times, units).Draw();
        Departures();
        Notes();
    }

    private void Situation()
    {
        var (supply, vehicle) = (request.Cars[0].Supply, request.Cars[0].Vehicle);
        screen.Say($"Asked {times.InFull(request.AsOf)}.");
        screen.Say(
            $"Car: {Figures.Plain(vehicle.UsableEnergy.KilowattHours)} kWh usable, at {Figures.State(request.Cars[0].PlugIn.StateOfCharge.Fraction)}"
            + (request.Cars[0].PlugIn.At > request.AsOf ? $" when it is plugged in, {times.Of(request.Cars[0].PlugIn.At)}." : ", plugged in."));
        screen.Say(
            $"Supply: {supply.VoltageV} V{(supply.Phases == 3 ? ", 3 phases" : "")}, breaker {Figures.Plain(supply.BreakerA)} A, "
            + $"{(supply.Connection == SupplyConnection.Hardwired ? "hardwired" : "receptacle")}: "
            + $"charges with {Figures.Plain(Math.Round(plan.FullCurrentA, 1))} A, {Figures.Number(plan.FullPowerKw)} kW.");
        screen.Say($"Rate plan: {request.RatePlan.Name}, {request.RatePlan.Utility}.");
    }

    private void Outcome()
    {
        if (plan.Outcome == NightOutcome.Ready)
        {
            screen.Say(
                plan.Departures.Count == 0
                    ? "READY: no departure lies in the days planned."
                    : $"READY for every departure until {times.Day(plan.Problem.Boundaries[^1])}.",
                "bold green");
            return;
        }

        foreach (var d in plan.Departures)
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

    private void Windows()
    {
        if (plan.Windows.Count == 0)
        {
            screen.Say("Nothing needs to be charged.");
            return;
        }

        var table = Columns.Of("Charging window", ">How long", ">Energy", ">Cost");
        foreach (var window in WindowFigures.Of(plan))
        {
            table.Row(
                null,
                times.Span(window.Start, window.End),
                Figures.Hours((window.End - window.Start).TotalHours),
                Figures.Kwh(window.WallKwh),
                Figures.Money(window.Cost, currency));
        }

        screen.Draw(table);
    }

    private void Money()
    {
        var saved = plan.CostOnArrival - plan.Cost;
        var days = Figures.Plain(Math.Round((plan.Problem.Boundaries[^1] - plan.Problem.Boundaries[0]).TotalDays, 1));
        var differences = Differences().ToArray();
        screen.Say(
            $"In {days} days: {Figures.Money(plan.Cost, currency)}. Charging on arrival: {Figures.Money(plan.CostOnArrival, currency)}, "
            + $"{Figures.Money(Math.Abs(saved), currency)} {(saved >= 0 ? "more" : "less")}"
            + (differences.Length > 0 ? $"; it leaves {string.Join(" and ", differences)}." : "."));
    }

    /// <summary>What makes the two costs not quite comparable.</summary>
    private IEnumerable<string> Differences()
    {
        var extra = Math.Round(plan.ExtraEndKwhOnArrival, 1);
        if (extra != 0)
        {
            yield return $"{Figures.Kwh(Math.Abs(extra))} {(extra > 0 ? "more" : "less")} in the battery at the end";
        }

        var onArrival = BehaviourSimulator.Run(plan.Problem, new OnArrival()).Replay;
        var onTheWay = Math.Round(onArrival.TripShortfallKwh.Sum() - plan.Replay.TripShortfallKwh.Sum(), 1);
        if (onTheWay != 0)
        {
            yield return $"{Figures.Kwh(Math.Abs(onTheWay))} {(onTheWay > 0 ? "more" : "less")} to charge on the way";
        }
    }

    private void Departures()
    {
        if (plan.Departures.Count == 0)
        {
            return;
        }

        var table = Columns.Of("Departure", "Trip", ">Distance", ">Needs", ">Has", "Ready from");
        table.Columns[0].NoWrap = true;
        foreach (var d in plan.Departures)
        {
            var trip = request.Cars[0].Calendar.Trips.First(t => t.Departure == d.Departure);
            table.Row(
                IsShort(d) ? new Style(Color.Yellow) : default(Style?),
                times.Of(d.Departure),
                trip.Label.Length > 0 ? trip.Label : "Trip",
                units.Far(trip.Distance.Kilometres),
                Figures.State(d.RequiredKwh / plan.Problem.UsableKwh),
                Has(d),
                Ready(d));
        }

        screen.Draw(table);
        screen.Say(
            $"Needs: the trip with {Figures.Whole(100 * request.Options.TripConfidence)} % confidence at the temperature expected, and "
            + $"{Figures.State(request.Cars[0].Vehicle.Minimum.Fraction)} left at home; or the target, if that is more.");
    }

    private static bool IsShort(DepartureForecast d) =>
        Math.Max(d.TripShortfallKwh, d.TargetShortfallKwh) > NightPlanner.NegligibleKwh;

    // A little short must not look like enough.
    private string Has(DepartureForecast d)
    {
        var state = d.StoredKwh / plan.Problem.UsableKwh;
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
        var notes = request.Warnings.Concat(plan.Warnings)
            .Concat(plan.GapIsFine ? [] : [$"This is within {Figures.Money(plan.Gap, currency)} of the least that can be reached."])
            .Concat(request.Cars[0].Ignored.Take(5).Select(i => $"Not a trip: {(i.Label.Length > 0 ? i.Label : "an event")}, line {i.Line}: {i.Reason}"))
            .Concat(request.Cars[0].Ignored.Count > 5 ? [$"{request.Cars[0].Ignored.Count - 5} more events of the calendar are not trips."] : [])
            .ToArray();
        if (notes.Length > 0)
        {
            screen.Blank();
            screen.List(notes);
        }
    }
}
