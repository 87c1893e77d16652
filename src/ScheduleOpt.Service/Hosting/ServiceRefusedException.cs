namespace ScheduleOpt.Service.Hosting;

/// <summary>The service does not start with these settings; the message says which and what to set instead.</summary>
public sealed class ServiceRefusedException : Exception
{
    /// <summary>Makes one without a reason.</summary>
    public ServiceRefusedException()
    {
    }

    /// <summary>Makes one with its reason.</summary>
    public ServiceRefusedException(string message)
        : base(message)
    {
    }

    /// <summary>Makes one with its reason and cause.</summary>
    public ServiceRefusedException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
