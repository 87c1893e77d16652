using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Comparison.Winters;

/// <summary>Runs a comparison over all its weather years; where none was measured, once more with the coldest week made colder.</summary>
public static class WinterComparison
{
    /// <summary>Whether no weather year of the case was measured: then the stress is added.</summary>
    public static bool IsStressed(YearCase question)
    {
        ArgumentNullException.ThrowIfNull(question);
        return question.Weather.IsTypical && question.FurtherWeather.All(w => w.IsTypical);
    }

    /// <summary>How many runs of the year it takes beside the first.</summary>
    public static int FurtherRuns(YearCase question)
    {
        ArgumentNullException.ThrowIfNull(question);
        return question.FurtherWeather.Count + (IsStressed(question) ? 1 : 0);
    }

    /// <summary>Runs it.</summary>
    /// <param name="question">The case.</param>
    /// <param name="first">The comparison over the case's first weather year, where it has been run; none: it is run too.</param>
    /// <param name="nextRun">Told before each further run; none: nobody.</param>
    /// <param name="progress">Told of each run as <see cref="YearComparison.Run"/> tells.</param>
    /// <param name="cancellation">Gives up between parts.</param>
    /// <exception cref="ArgumentException">The case contradicts itself.</exception>
    public static WintersResult Run(
        YearCase question, YearResult? first = null, Action? nextRun = null, IProgress<YearProgress>? progress = null, CancellationToken cancellation = default)
    {
        YearCaseCheck.ThrowIfContradictory(question);
        first ??= YearComparison.Run(question, progress, cancellation);
        WeatherYear[] weather = [question.Weather, .. question.FurtherWeather];
        YearResult[] years = [first, .. question.FurtherWeather.Select(w => Under(w))];
        var stressed = IsStressed(question);
        var coldest = Enumerable.Range(0, years.Length).Where(y => stressed || !weather[y].IsTypical).MinBy(y => years[y].ColdestWeek.MeanC);
        var week = years[coldest].ColdestWeek;
        var snap = stressed ? Under(ColdSnap.On(weather[coldest], week, WintersResult.StressK)) : null;
        return new WintersResult
        {
            Weather = [.. weather.Zip(years, (w, y) => new WinterSource(w.Source, w.IsTypical, y.ColdestWeek))],
            Cells = [.. first.Cells.Select((_, c) => Cell([.. years.Select(y => y.Cells[c])], coldest, snap, c))],
            ColdestWeek = week with { Wording = Wording(weather, week) },
            ColdestYear = coldest,
            Stress = stressed
                ? FormattableString.Invariant(
                    $"The week from {week.First:uuuu-MM-dd} of a typical year, every hour {-WintersResult.StressK:0} K colder (our choice, no source): a typical year has no record cold.")
                : null,
        };

        YearResult Under(WeatherYear year)
        {
            nextRun?.Invoke();
            return YearComparison.Run(question with { Weather = year, FurtherWeather = [] }, progress, cancellation);
        }
    }

    private static string Wording(WeatherYear[] weather, ColdestWeek week) => weather.Count(w => !w.IsTypical) switch
    {
        0 => "coldest week of a typical year",
        1 => week.Wording,
        var measured => FormattableString.Invariant($"worst on record of {measured} measured years"),
    };

    private static WinterCell Cell(YearCell[] years, int coldest, YearResult? snap, int cell) => new()
    {
        Name = CellName.Of(years[0]),
        CarCost = MedianAndRange.Of(years.Select(y => y.CarCost)),
        WholeHouseCost = MedianAndRange.Of(years.Select(y => y.WholeHouseCost)),
        HomeWallKwh = MedianAndRange.Of(years.Select(y => (decimal)y.Energy.HomeWallKwh)),
        AwayKwh = MedianAndRange.Of(years.Select(y => (decimal)y.Away.Kwh)),
        ReadyShare = Shares(years, y => y.Readiness.Share),
        OnTargetShare = Shares(years, y => y.Readiness.OnTargetShare),
        ShortDays = MedianAndRange.Of(years.Select(y => (decimal)y.ShortDays.Count)),
        ColdestWeek = years[coldest].ColdestWeekDays,
        Stressed = snap?.Cells[cell].ColdestWeekDays,
    };

    private static MedianAndRange? Shares(YearCell[] years, Func<YearCell, double?> share) =>
        years.All(y => share(y) is not null) ? MedianAndRange.Of(years.Select(y => (decimal)share(y)!.Value)) : null;
}
