using NodaTime;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Calibration;

/// <summary>The modelled year day by day, to be held against bills with dates of their own. [kWh at the meter]</summary>
/// <remarks>Days are those of the household's clock. A day of another year is held against the same day of the modelled one, whose weather and use stand for any year: weekdays move by one or two.
/// 29 February is the 28th once more where the modelled year has none.</remarks>
public sealed class ModelledDays
{
    private readonly int year;
    private readonly decimal[] kwh;

    private ModelledDays(YearFrame frame, params IEnumerable<MeteredSeries> metered)
    {
        year = frame.Question.Year;
        kwh = new decimal[frame.Span.IsLeap ? 366 : 365];
        var zone = frame.Span.Zone.Zone;
        foreach (var series in metered)
        {
            for (var i = 0; i < series.Count; i++)
            {
                var date = (series.Start + (series.Interval * i)).InZone(zone).Date;
                kwh[date.DayOfYear - 1] += series.MicroKilowattHours[i] / (decimal)MeteredSeries.UnitsPerKilowattHour;
            }
        }
    }

    /// <summary>The house without the car.</summary>
    /// <param name="question">The year's case.</param>
    public static ModelledDays OfHouse(YearCase question)
    {
        var frame = new YearFrame(question);
        return new(frame, frame.House);
    }

    /// <summary>The house with the car of one cell, whose year is simulated once more: a cell keeps its bill alone. Equal cases give equal years.</summary>
    /// <param name="question">The year's case.</param>
    /// <param name="cell">The cell.</param>
    /// <exception cref="ArgumentException">The case has no such cell.</exception>
    public static ModelledDays OfHouseAndCar(YearCase question, CellName cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        var frame = new YearFrame(question);
        var plans = PlanYears.Of(frame, new ParallelOptions(), new ProgressCount(null, 0));
        var task = YearTask.Of(frame, plans).FirstOrDefault(
            t => t.SetUp.Name == cell.SetUp && t.Behaviour?.Name == cell.Behaviour && t.Plans.Any(p => p.Plan.Id == cell.RatePlan))
            ?? throw new ArgumentException($"The case has no cell {cell.Words}.", nameof(cell));
        return new(frame, frame.House, task.Run(frame).Car);
    }

    /// <summary>The energy from the start of one day to the start of another. [kWh]</summary>
    /// <param name="from">The first day.</param>
    /// <param name="until">The day after the last, later than the first.</param>
    public double Kwh(LocalDate from, LocalDate until)
    {
        var sum = 0m;
        for (var date = from; date < until; date = date.PlusDays(1))
        {
            sum += kwh[date.PlusYears(year - date.Year).DayOfYear - 1];
        }

        return (double)sum;
    }
}
