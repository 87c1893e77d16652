namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>Finds places in short lists.</summary>
internal static class Positions
{
    /// <summary>Index of the first item for which the condition holds; -1 where there is none.</summary>
    public static int IndexWhere<T>(this IReadOnlyList<T> items, Func<T, bool> condition)
    {
        for (var i = 0; i < items.Count; i++)
        {
            if (condition(items[i]))
            {
                return i;
            }
        }

        return -1;
    }
}
