using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>What a schedule that leaves too much unmet can still be given: time and current that are free, or that cars have which are due later.</summary>
/// <remarks>Stay by stay, in the strict order of what goes unmet, each with the windows that store most beside what others keep (<see cref="BestStay"/>). It works on powers alone and needs no
/// programme; what it finds is solved again for its cost.</remarks>
internal static class FreeTime
{
    // Each ends with a programme.
    private const int MostRounds = 3;

    // A few thousand take a millisecond.
    private const int MostSteps = 1_500_000;

    /// <summary>Tries to leave less unmet.</summary>
    /// <param name="search">Where schedules are kept.</param>
    /// <param name="model">The household.</param>
    /// <param name="least">What must go unmet.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    public static void Fill(RunnableSearch search, HouseholdModel model, HouseholdShortfalls least, ShortfallOrder order)
    {
        if (search.Filled is { } filled && search.Best!.Shortfalls.Compare(filled, model, order) == 0)
        {
            return;
        }

        var filling = new Filling(model, order, MostSteps);
        for (var round = 0; round < MostRounds && IsShort(); round++)
        {
            var before = search.Best;
            Try(search.Best!.Powers);
            if (round == 0 && IsShort())
            {
                // The strict order alone may do better than what is best for its cost.
                Try(Away(model, search.Best!.Powers));
            }

            if (ReferenceEquals(before, search.Best))
            {
                break;
            }
        }

        search.Filled = search.Best!.Shortfalls;

        bool IsShort() => search.Best!.Shortfalls.Compare(least, model, order) > 0;

        void Try(HouseholdPowers powers)
        {
            var fuller = filling.Run(powers);
            search.Try(fuller, HouseholdShortfalls.None(model).TripKwh);
            search.Try(OnOffRounding.On(model, fuller));
        }
    }

    /// <summary>Nothing at home.</summary>
    private static HouseholdPowers Away(HouseholdModel model, HouseholdPowers powers)
    {
        var away = powers.Copy();
        for (var c = 0; c < model.Cars.Length; c++)
        {
            foreach (var (first, end) in model.Cars[c].Stays)
            {
                Array.Clear(away.Share[c], first, end - first);
                Array.Clear(away.WallKw[c], first, end - first);
            }
        }

        return away;
    }
}
