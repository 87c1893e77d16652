namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>How the car is charged over the year.</summary>
public abstract record Behaviour
{
    private protected Behaviour()
    {
    }

    /// <summary>The behaviour's name in requests and answers, such as <c>onArrival</c>.</summary>
    public abstract string Name { get; }

    /// <summary>One sentence that says what the behaviour does.</summary>
    public abstract string Description { get; }
}
