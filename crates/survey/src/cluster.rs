//! The same survey spread over machines: a scheduler, executors, and this program as their client, on the engine's own
//! distributed form. Every machine must see the tables under the same paths, and every process is this program: the
//! scheduler plans with our functions, the executors run them.

use crate::columns::Reading;
use crate::error::Error;
use crate::functions;
use crate::table::Table;
use ballista_core::extension::{SessionConfigExt as _, SessionStateExt as _};
use ballista_core::registry::BallistaFunctionRegistry;
use ballista_core::{ConfigProducer, RuntimeProducer};
use ballista_executor::executor_process::{ExecutorProcessConfig, start_executor_process};
use ballista_scheduler::cluster::BallistaCluster;
use ballista_scheduler::config::SchedulerConfig;
use ballista_scheduler::scheduler_process::start_server;
use datafusion::execution::SessionStateBuilder;
use datafusion::execution::runtime_env::RuntimeEnvBuilder;
use datafusion::prelude::{DataFrame, SessionConfig, SessionContext};
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::Arc;

/// A cluster to work on.
#[derive(Debug, Clone)]
pub struct Cluster {
    /// Address of the scheduler, `http://host:port`.
    pub address: String,
    /// Parts that the rows are cut into between the stages.
    pub partitions: usize,
}

fn config(base: SessionConfig, partitions: usize) -> SessionConfig {
    let mut config = base.with_target_partitions(partitions);
    config.options_mut().execution.parquet.schema_force_view_types = false;
    config.options_mut().sql_parser.map_string_types_to_utf8view = false;
    config
}

impl Cluster {
    /// A session whose queries run there.
    ///
    /// # Errors
    /// [`Error::Cluster`].
    pub fn session(&self) -> Result<SessionContext, Error> {
        let fail = |e: datafusion::error::DataFusionError| self.failed(&e.to_string());
        let state = SessionStateBuilder::new()
            .with_default_features()
            .with_config(config(SessionConfig::new_with_ballista(), self.partitions))
            .build()
            .upgrade_for_ballista(self.address.clone())
            .map_err(fail)?;
        let mut session = SessionContext::new_with_state(state);
        functions::register(&mut session)?;
        Ok(session)
    }

    /// What a failure of the cluster means.
    pub fn failed(&self, message: &str) -> Error {
        let ours = functions::OF_GROUPS.iter().map(|s| s.name).chain(functions::OF_ROWS.iter().map(|s| s.name));
        let unknown = ["no UDF", "no UDAF", "not found", "not registered", "UDF named", "UDAF named"];
        let without = unknown.iter().any(|u| message.contains(u)) && ours.into_iter().any(|f| message.contains(f));
        let hint = if without {
            "; a scheduler or executor there does not know our functions: start both with `limpid survey-worker`"
        } else {
            ""
        };
        Error::Cluster { address: self.address.clone(), message: format!("{}{hint}", message.trim()) }
    }

    /// The rows of a table that take part, as a view called `rows`, and their session.
    ///
    /// # Errors
    /// [`Error`].
    pub async fn rows(&self, table: &Table, reading: &Reading) -> Result<(SessionContext, DataFrame), Error> {
        let session = self.session()?;
        let rows = table.rows(&session, &table.parts).await?;
        let view = reading.view(&session, table, rows).await?;
        Ok((session, view))
    }
}

/// Runs a scheduler until it is stopped.
///
/// # Errors
/// [`Error::Cluster`]: the address cannot be taken.
pub async fn scheduler(bind: SocketAddr, executor_timeout_s: u64) -> Result<(), Error> {
    let address = format!("http://{bind}");
    let fail = |e: String| Error::Cluster { address: address.clone(), message: e };
    let builder = |config: SessionConfig| {
        let mut state = SessionStateBuilder::new().with_default_features().with_config(config).build();
        functions::register(&mut state)?;
        Ok(state)
    };
    let config = SchedulerConfig {
        bind_host: bind.ip().to_string(),
        external_host: bind.ip().to_string(),
        bind_port: bind.port(),
        executor_timeout_seconds: executor_timeout_s,
        expire_dead_executor_interval_seconds: (executor_timeout_s / 2).max(1),
        executor_termination_grace_period: 1,
        override_session_builder: Some(Arc::new(builder)),
        override_config_producer: Some(Arc::new(|| self::config(SessionConfig::new_with_ballista(), 16))),
        ..SchedulerConfig::default()
    };
    let cluster = BallistaCluster::new_from_config(&config).await.map_err(|e| fail(e.to_string()))?;
    start_server(cluster, bind, Arc::new(config)).await.map_err(|e| fail(e.to_string()))
}

/// What an executor is told.
#[derive(Debug, Clone)]
pub struct Executor {
    /// Host and port of the scheduler.
    pub scheduler: (String, u16),
    /// Address for the other executors and the client.
    pub bind: SocketAddr,
    /// Second port, for the scheduler.
    pub grpc_port: u16,
    /// Tasks at once.
    pub slots: usize,
    /// Folder for the rows between stages.
    pub work: PathBuf,
    /// Seconds between its signs of life.
    pub heartbeat_s: u64,
    /// Whether it knows our functions; it always does but in the test of what happens when not.
    pub with_functions: bool,
}

/// Runs an executor until it is stopped.
///
/// # Errors
/// [`Error::Cluster`]: no scheduler there, an address that cannot be taken.
pub async fn executor(e: &Executor) -> Result<(), Error> {
    let address = format!("http://{}:{}", e.scheduler.0, e.scheduler.1);
    let fail = |m: String| Error::Cluster { address: address.clone(), message: m };
    let mut state = SessionStateBuilder::new()
        .with_default_features()
        .with_config(config(SessionConfig::new_with_ballista(), e.slots))
        .build();
    if e.with_functions {
        functions::register(&mut state)?;
    }
    let runtime = Arc::new(RuntimeEnvBuilder::new().build()?);
    let producer: RuntimeProducer = Arc::new(move |_| Ok(Arc::clone(&runtime)));
    let slots = e.slots;
    let configs: ConfigProducer = Arc::new(move || config(SessionConfig::new_with_ballista(), slots));
    std::fs::create_dir_all(&e.work).map_err(Error::file(&e.work))?;
    let config = ExecutorProcessConfig {
        bind_host: e.bind.ip().to_string(),
        external_host: Some(e.bind.ip().to_string()),
        port: e.bind.port(),
        grpc_port: e.grpc_port,
        scheduler_host: e.scheduler.0.clone(),
        scheduler_port: e.scheduler.1,
        scheduler_connect_timeout_seconds: 20,
        vcores: e.slots,
        work_dir: Some(e.work.to_string_lossy().into_owned()),
        executor_heartbeat_interval_seconds: e.heartbeat_s,
        override_function_registry: Some(Arc::new(BallistaFunctionRegistry::from(&state))),
        override_runtime_producer: Some(producer),
        override_config_producer: Some(configs),
        ..ExecutorProcessConfig::default()
    };
    start_executor_process(Arc::new(config)).await.map_err(|x| fail(x.to_string()))
}
