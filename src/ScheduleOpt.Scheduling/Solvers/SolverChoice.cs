namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>How step 2 is solved.</summary>
public enum SolverChoice
{
    /// <summary>The direct sweep: exact where nothing is priced on power; the LP takes over where it is not.</summary>
    Direct,

    /// <summary>The linear programme by GLOP.</summary>
    Glop,

    /// <summary>The linear programme by CLP: an independent check of the solver.</summary>
    Clp,
}
