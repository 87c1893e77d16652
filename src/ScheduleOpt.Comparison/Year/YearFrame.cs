using NodaTime;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year;

/// <summary>What all cells of a comparison share.</summary>
internal sealed class YearFrame
{
    private readonly TemperatureForecast temperatures;
    private readonly DrivingCalendar calendar;

    public YearFrame(YearCase question)
    {
        Question = question;
        Span = new YearSpan(question.Year, question.Zone, Duration.FromMinutes(question.GridMinutes));
        temperatures = question.Weather.OnYear(question.Year, Span.StandardOffset);
        ColdestWeek = ColdestWeek.Of(question.Year, Span, temperatures, question.Weather.IsTypical);
        Nothing = MeteredSeries.FromKilowattHours(Span.Start, Span.Step, new double[Span.Count]);
        House = MeteredSeries.FromKilowattHours(Span.Start, Span.Step, question.HouseLoad?.On(Span) ?? new double[Span.Count]);

        var touching = question.Calendar.Within(Span.Start, Span.End).ToArray();
        var inside = touching.Where(t => t.Departure >= Span.Start && t.Return <= Span.End).ToArray();
        calendar = new DrivingCalendar(inside);
        Warnings = [.. WarningsOf(question, touching.Length - inside.Length, inside.Length)];
    }

    public YearCase Question { get; }

    public YearSpan Span { get; }

    public ColdestWeek ColdestWeek { get; }

    /// <summary>The house without the car.</summary>
    public MeteredSeries House { get; }

    /// <summary>A meter of its own without the car.</summary>
    public MeteredSeries Nothing { get; }

    public IReadOnlyList<string> Warnings { get; }

    /// <summary>The most power that the car takes at home. [kW]</summary>
    public decimal MostKw => (decimal)Question.Vehicle.OnBoardCharger.Kilowatts;

    /// <summary>The year of a set-up in intervals; without prices for a behaviour that does not look at them.</summary>
    public ChargingProblem Problem(SetUp setUp, PriceSchedule? prices) => ChargingProblemBuilder.Build(new ChargingCase
    {
        Start = Span.Start,
        End = Span.End,
        GridStep = Span.Step,
        Vehicle = Question.Vehicle,
        Supply = setUp.Supply,
        PluggedInAt = Question.Vehicle.OrdinaryLimit,
        FinalState = Question.Vehicle.OrdinaryLimit,
        Calendar = calendar,
        Prices = prices ?? new PriceSchedule([new PriceSpan(Span.Start, 0, "")], Span.End, Question.RatePlans[0].Currency),
        Temperatures = temperatures,
        TripConfidence = Question.TripConfidence,
        Stops = StopReading.WeightedByShare,
    });

    private static IEnumerable<string> WarningsOf(YearCase question, int leftOut, int trips)
    {
        if (question.HouseLoad is null)
        {
            yield return "No house load is given: the bills are those of a house that uses nothing but the car's energy, so blocks and "
                + "minimum bills may be wrong.";
        }

        if (leftOut > 0)
        {
            yield return FormattableString.Invariant(
                $"Trips that lie only partly in {question.Year}: {leftOut}. They are left out.");
        }

        if (trips == 0)
        {
            yield return FormattableString.Invariant($"No trip lies in {question.Year}.");
        }

        var stops = question.Calendar.Trips.SelectMany(t => t.Legs).Select(l => l.Stop);
        if (stops.Any(s => s is { ShareOfDays: < 1 } && s.ChargingPower.Kilowatts > 0))
        {
            yield return "A stop that charges on a share of days counts on every day, with its power times that share.";
        }
    }
}
