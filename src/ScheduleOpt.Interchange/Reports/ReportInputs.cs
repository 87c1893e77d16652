using System.Globalization;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Inputs, assumptions with their sources, overridden values, cautions.</summary>
internal static class ReportInputs
{
    /// <summary>Writes the sections.</summary>
    public static void Write(HtmlPage page, ComparisonRequest request, DecisionResult decided, ShownUnits units, Calibration? calibration)
    {
        var (question, currency) = (request.Case, decided.Year.Currency);
        var car = question.Vehicle;
        var driven = question.Calendar.Trips.Sum(t => t.Legs.Sum(l => l.Distance.Kilometres)) / units.Kilometres;
        page.Element("h2", "Inputs").Table("What was given", ["Input", "Value"],
        [
            ["Year and time zone", $"{question.Year}, {question.Zone.Zone.Id}"],
            ["Car", FormattableString.Invariant(
                $"{car.UsableEnergy.KilowattHours:0.##} kWh usable, on-board charger {car.OnBoardCharger.Kilowatts:0.##} kW, {100 * units.Kilometres * car.Consumption.ReferenceKwhPerKm:0.##} kWh per 100 {units.Far} at {units.Warm(20, 0)}")],
            ["Limits of the battery", FormattableString.Invariant($"minimum {car.Minimum.Fraction:P0}, ordinary limit {car.OrdinaryLimit.Fraction:P0}")],
            ["Trips", FormattableString.Invariant($"{question.Calendar.Trips.Count} trips, {driven:0} {units.Far} in all")],
            .. question.FurtherWeather.Prepend(question.Weather).Select(w => (IReadOnlyList<string>)["Weather", ReportWords.Of(w)]),
            ["House without the car", request.House.Words],
            ["Public charging", ReportPublic.Price(question, currency)],
            ["Grid step and metering interval", FormattableString.Invariant($"{question.GridMinutes} min")],
            .. question.SetUps.Select(s => (IReadOnlyList<string>)[$"Set-up: {s.Name}", OfSupply(s)]),
            .. question.Behaviours.Select(b => (IReadOnlyList<string>)[$"Behaviour: {ReportWords.OfBehaviour(b.Name)}", b.Description]),
        ]);

        ReportCalibration.Write(page, calibration);
        page.Element("h2", "Assumptions and their sources").List(
        [
            "All combinations stand on the same trips, weather, house load and physics; energy balances over the year.",
            FormattableString.Invariant(
                $"Charging: efficiency {car.Constants.ConversionEfficiency:0.###}, overhead {car.Constants.OverheadKw:0.###} kW, battery heating below {units.Warm(car.Constants.HeatingBelowC, 1)}."),
            FormattableString.Invariant($"Publicly metered energy reaches the battery at {AwayCharging.PublicEfficiency:P0}: cautious end of published values, from memory."),
            .. Planning(question, decided),
            .. units.InFahrenheit ? ["Differences of temperature are in K: 1 K is 1.8 degF."] : Array.Empty<string>(),
            .. decided.SetUps.Where(s => s.Offered.Chosen.Standby is { IsOwn: false }).Select(s => $"Standby of {s.Offered.SetUp.Name}: {s.Offered.Chosen.Standby!.Note}."),
            .. request.Decision.LifeCycle is null
                ? Array.Empty<string>()
                : decided.SetUps.Where(s => s.Offered.Chosen.Costs.Count > 0 && s.Offered.Chosen.LifetimeYears is null)
                    .Select(s => $"Lifetime of {s.Offered.SetUp.Name} is not given: taken as the study period."),
        ]);

        page.Element("h3", "Overridden values");
        if (request.Scenario is { Overrides.Count: > 0 } scenario)
        {
            page.Table("Values that the scenario puts in place of others", ["Field", "Value", "Was", "Note", "Author"], scenario.Overrides.Select(
                o => (IReadOnlyList<string>)[o.Field, o.Value, o.Was ?? "default", o.Note, o.Author]));
        }
        else
        {
            page.Say("None.");
        }

        page.Element("h2", "Cautions").List(Cautions.ForSetUps(question.SetUps));
        ReportWarnings.Write(page, request, decided);
        page.List(request.Ignored.Select(i => $"Ignored event: {i.Label}: {i.Reason}"));
    }

    private static IEnumerable<string> Planning(YearCase question, DecisionResult decided)
    {
        if (question.Behaviours.OfType<LeastCostKnownAhead>().Any())
        {
            yield return "Least cost, known ahead, knows the whole year: what planning can reach at best, not a promise.";
        }

        var unbounded = decided.Cells.Where(c => c.Year is { Behaviour: LeastCostKnownAhead, BoundCost: null }).Select(c => c.Year.RatePlan.Name).Distinct().ToArray();
        if (unbounded.Length > 0)
        {
            yield return $"No bound is known on {string.Join(", ", unbounded)}: known ahead is a good schedule there, and another way of charging may even cost less.";
        }

        foreach (var night in question.Behaviours.OfType<LeastCostByNight>())
        {
            yield return FormattableString.Invariant(
                $"Least cost, night by night, plans anew at every arrival and looks {night.HorizonDays} days ahead, longer until the second departure: {night.Errors.Words}. Draws from seed {night.Errors.Seed}.");
        }
    }

    private static string OfSupply(SetUp setUp) => setUp.Supply is not { } supply
        ? "public charging alone"
        : string.Create(
            CultureInfo.InvariantCulture,
            $"{supply.VoltageV} V, {supply.Phases} phase, breaker {supply.BreakerA:0.#} A, {(supply.Connection == SupplyConnection.Hardwired ? "hardwired" : "receptacle")}, continuous rating {supply.ContinuousRatingA:0.#} A");
}
